"""Every sentence stands once, in ``sentences.json``: whole, used, given all its places, and the same on both sides."""

import ast
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from py_mini_racer import MiniRacer

from diagnose.handbook.page.compiled import engine_files, engine_script
from diagnose.speech.saying import Message, Slot, listed, parsed, say, sentences
from tests.checkout import CHECKOUT

MODULES = sorted((CHECKOUT / "diagnose").rglob("*.py"))
WORDLESS = ("dialogue", "foresight", "reasoning", "press")  # floors below that no person reads a sentence of
KEYWORDS = {"number", "plural", "select"}


def slots(message: Message) -> Iterator[Slot]:
    """Every place of a sentence, those within its forms included."""
    for part in message:
        if isinstance(part, Slot):
            yield part
            for form in part.forms.values():
                yield from slots(form)


PLACES = {name: {slot.name for slot in slots(parsed(text))} for name, text in sentences().items()}


# --- each sentence by itself ---


@pytest.mark.parametrize("name", sentences())
def test_a_sentence_is_well_formed(name: str) -> None:
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name)
    for slot in slots(parsed(sentences()[name])):
        assert slot.kind in KEYWORDS | {""}
        assert re.fullmatch(r"(::\.0*)?", slot.style)
        assert bool(slot.forms) == (slot.kind in ("plural", "select"))
        assert "other" in slot.forms or not slot.forms
        assert slot.kind != "plural" or "one" in slot.forms or any(key.startswith("=") for key in slot.forms)


@pytest.mark.parametrize("name", sentences())
def test_no_brace_is_left_over(name: str) -> None:
    text = sentences()[name]
    assert text.count("{") == text.count("}")
    assert not any(sign in part for part in texts(parsed(text)) for sign in "{}")


def texts(message: Message) -> Iterator[str]:
    for part in message:
        if isinstance(part, str):
            yield part
        else:
            for form in part.forms.values():
                yield from texts(form)


def test_words_are_listed_as_a_person_says_them() -> None:
    assert [listed("abc"[:many]) for many in (1, 2, 3)] == ["a", "a and b", "a, b and c"]
    assert listed("abcd", "or") == "a, b, c or d"


# --- how they are used ---


def calls() -> Iterator[tuple[str, str, set[str]]]:
    """Where a sentence is said, which, and the places it is given; "" for one that is not named outright."""
    for path in MODULES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "say":
                named = node.args[0].value if len(node.args) == 1 and isinstance(node.args[0], ast.Constant) else ""
                yield f"{path.name}:{node.lineno}", str(named), {str(keyword.arg) for keyword in node.keywords}
    for script in scripts():
        yield from said_by(script)


def scripts() -> list[Path]:
    return [path for path in engine_files() if path.name != "say.js"]


def said_by(script: Path) -> Iterator[tuple[str, str, set[str]]]:
    text = script.read_text(encoding="utf-8")
    for call in re.finditer(r"\bsay\(", text):
        named = re.compile(r"\s*'([\w-]+)',\s*\{").match(text, call.end())
        given = re.findall(r"(\w+)", own_keys(text, named.end())) if named else []
        yield f"{script.name}:{text.count(chr(10), 0, call.start()) + 1}", named[1] if named else "", set(given)


def own_keys(text: str, at: int) -> str:
    """The keys of an object that begins there: what stands outside its values."""
    keys, depth, key = [], 0, True
    for sign in text[at:]:
        depth += (sign in "({[`") - (sign in ")}]")
        if depth < 0:
            break
        if depth == 0 and sign in ":,":
            key = sign == ","
        keys.append(sign if key and depth == 0 else " ")
    return "".join(keys)


def test_every_sentence_is_said_by_its_name_with_all_its_places() -> None:
    wrong = [
        f"{where}: {name or 'not named outright'} {given}"
        for where, name, given in calls()
        if given != PLACES.get(name)
    ]
    assert wrong == []


def test_no_sentence_stands_unused() -> None:
    assert set(sentences()) - {name for _, name, _ in calls()} == set()


def test_the_page_carries_what_its_engine_says() -> None:
    world = MiniRacer()
    world.eval(engine_script())
    carried = json.loads(str(world.eval("JSON.stringify(presslore.shared.sentences)")))
    said = {name for script in scripts() for _, name, _ in said_by(script)}
    assert carried == {name: sentences()[name] for name in said}


# --- both sides ---


@pytest.fixture(scope="module")
def page() -> MiniRacer:
    world = MiniRacer()
    world.eval(engine_script())
    world.eval(f"presslore.shared.sentences = {json.dumps(dict(sentences()))}")
    return world


def filling(name: str) -> st.SearchStrategy[dict[str, Any]]:
    """Anything that the places of a sentence may be given."""
    found: dict[str, st.SearchStrategy[Any]] = {}
    for slot in slots(parsed(sentences()[name])):
        if slot.kind == "select":
            found[slot.name] = st.sampled_from([*slot.forms, "something-else", ""])
        elif slot.kind:
            found[slot.name] = st.integers(0, 3) | st.floats(-1e16, 1e16) | st.floats(-9, 99) | st.integers(0, 10**7)
        else:
            found.setdefault(slot.name, st.text(max_size=8) | st.sampled_from(["{a}", "#", "O'Hara", "80 %"]))
    return st.fixed_dictionaries(found)


@settings(max_examples=600, deadline=None)
@given(data=st.data(), name=st.sampled_from(sorted(sentences())))
def test_both_sides_fill_them_in_alike(page: MiniRacer, data: st.DataObject, name: str) -> None:
    places = data.draw(filling(name))
    assert page.eval(f"presslore.say({json.dumps(name)}, {json.dumps(places)})") == say(name, **places)


# --- and nowhere else ---


def is_sentence(text: str) -> bool:
    """Whether a text reads like one: several words, with a capital or a full stop."""
    several = re.search(r"[A-Za-z]{2,}[,;:]? +[a-z(“{]", text)
    return bool(several) and bool(re.match(r"\s*[A-Z]", text) or re.search(r"[a-z)}]\.(\s|$)", text))


def literals(path: Path) -> Iterator[tuple[int, str]]:
    """The texts of a module that are neither told of it nor told in an error: an error is raised where the fault is
    found, as the one thing that may pass all floors, and says there what was expected."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    aside = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        called = node.func.id if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) else ""
        if isinstance(node, ast.Raise) or called in ("Problem", "Unclear", "NoBody"):
            aside |= {id(part) for part in ast.walk(node)}
        if isinstance(node, ast.JoinedStr):
            aside |= {id(part) for part in node.values}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr) and id(node) not in aside:
            parts = (part.value if isinstance(part, ast.Constant) else "{}" for part in node.values)
            yield node.lineno, "".join(map(str, parts))
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in aside:
            yield node.lineno, node.value


def test_no_floor_below_holds_a_sentence() -> None:
    found = [
        f"{path.relative_to(CHECKOUT)}:{line}: {text}"
        for path in MODULES
        if path.relative_to(CHECKOUT / "diagnose").parts[0] in WORDLESS
        for line, text in literals(path)
        if is_sentence(text)
    ]
    assert found == []


def test_no_script_of_the_engine_holds_a_sentence() -> None:
    quoted = re.compile(r"'((?:[^'\\\n]|\\.)*)'|\"([^\"\n]*)\"|`([^`]*)`")
    found = [
        f"{path.name}: {text}"
        for path in engine_files()
        for match in quoted.finditer(re.sub(r"(?m)^\s*(//|/\*|\*).*$|// .*$", "", path.read_text(encoding="utf-8")))
        for text in [next(filter(None, match.groups()), "")]
        if is_sentence(text)
    ]
    assert found == []
