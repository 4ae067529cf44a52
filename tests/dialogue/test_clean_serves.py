"""What is found clean serves: whatever a folder holds that loads without a problem, a dialogue on each defect runs to
its end, and can be told at every step."""

import copy
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.dialogue import moves as said
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Move
from diagnose.dialogue.rehearsal import MOST_STEPS, rehearse
from diagnose.dialogue.session import Session
from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.knowledge.folders import Folder, SourceFile
from diagnose.knowledge.laying.compiling import Parsed, compile_stock
from diagnose.knowledge.shop import Stock
from diagnose.problems import Collector, Problem
from diagnose.speech.report import to_plain
from tests.trials import daily

BASE = Path(__file__).parents[1] / "knowledge" / "valid" / "readings"
KB, RULES, SHOP, OWN = "kb/all.yaml", "rules/faint-colour.yaml", "shop.yaml", "kb/own.yaml"
KINDS = {KB: "kb", RULES: "rule", SHOP: "shop", OWN: "kb"}

NUMBERS = (0, 1, 0.5, 0.000000000001, 0.99999999999, 7, 65, 1000, 10000, 999999999999999, -1)
CHANCES = ("very likely", "likely", "rarely", "almost never", "impossible")
PRICES = ["minutes", "test-minutes", "blank-price", "paper", "scrap", "blank"]
PRICES += ["asking", "money", "help", "help-minutes"]
VALUES: tuple[Any, ...] = (
    *NUMBERS,
    "almost never",
    "impossible",
    "certain",
    "< 65",
    "50..80",
    True,
    False,
    [],
    {},
    "tea towel",
    "cloth",
)


def _plain(path: Path) -> Any:
    document, _ = read_yaml(path.read_bytes(), path.name)
    assert document is not None
    return document.value


def _written(value: Any) -> str:
    """The value on one line, numbers without an exponent."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{json.dumps(key)}: {_written(below)}" for key, below in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_written, value)) + "]"
    return f"{value:.14f}".rstrip("0") + "0" if isinstance(value, float) else json.dumps(value)


def _sound() -> dict[str, Any]:
    """Values of every kind that planning leans on: what ships, and a shop laid over it."""
    own = {
        "causes": {
            "draught": {"title": "A draught", "family": "heat", "turns-up": 0.16, "about": "-",
                        "basis": "common practice", "when": [{"if": {"press.name": "left"}, "turns-up": 1}]},
        },
        "fixes": {
            "shut-the-door": {"title": "Shut", "steps": ["Shut it."], "minutes": 0, "cures": {"draught": 0.9},
                              "spends": {"paper": 1, "blank": 1, "money": 2}, "basis": "common practice"},
        },
        "adds-to": {"fixes": {"press-longer": {"platen-runs-cool": 0.2}},
                    "checks": {"probe-the-platen": {"reads-low": {"draught": 0.5}}}},
        "learned": {"basis": "this shop's cases", "turns-up": {"dwell-short": 0.2},
                    "brings": {"faint-colour": {"platen-runs-cool": 0.5}},
                    "shows": {"probe-the-platen": {"reads-low": {"platen-runs-cool": 0.6}}},
                    "cures": {"press-longer": {"dwell-short": 0.4}}, "minutes": {"press-longer": 3}},
    }  # fmt: skip
    shop = {
        "rates": {"minute": 0.5, "paper": 0.4, "scrap": 0.5, "blank": 3, "help": 120, "help-minutes": 120, "asking": 1},
        "spoilt": 0.05,
        "presses": [{"id": "left", "title": "Left", "facts": {"item.hard": False},
                     "known": [{"cause": "draught", "turns-up": 0.5, "note": "stands in a draught"}]},
                    {"id": "right", "title": "Right"}],
    }  # fmt: skip
    rules = _plain(BASE / RULES)
    rules["rules"].append({"cause": "draught", "brings": 0.7, "why": "-", "basis": "common practice"})
    return {KB: _plain(BASE / KB), RULES: rules, OWN: own, SHOP: shop}


SOUND = _sound()


def stock_of(files: dict[str, Any]) -> tuple[Stock | None, list[Problem]]:
    """The files compiled, what ships below, the rest as a shop's."""
    made = {name: SourceFile(name, name, KINDS[name], _written(files[name]).encode()) for name in files}  # type: ignore[arg-type]
    shipped = Folder("shipped", ())
    shop = Folder("this shop", tuple(made[name] for name in (KB, OWN, RULES, SHOP)))
    found = Collector()
    parsed: Parsed = {}
    return compile_stock((shipped, shop), found, parsed), list(found)


def dialogues(stock: Stock) -> Iterator[Consultation]:
    """Every way a dialogue may open: each defect, with each item or none, on each press or none."""
    for defect in stock.knowledge.defects:
        for item in ("", *stock.knowledge.items):
            for press in ("", *stock.shop.presses):
                facts = {"press.name": press} if press else {}
                yield Consultation(
                    stock.knowledge, stock.shop, Session((said.Pressed(item, facts), said.Saw((defect,))))
                )


def told(consultation: Consultation) -> None:
    """Everything that a screen or a program is told of it."""
    json.dumps(to_plain(consultation, {}), allow_nan=False)


def held(stock: Stock) -> None:
    """Each dialogue to its end: with one who answers truly, and with one who can tell nothing and mends nothing."""
    for opening in dialogues(stock):
        for truth in stock.knowledge.causes:
            turns = list(rehearse(opening, frozenset({truth})))
            assert len(turns) <= MOST_STEPS
            told(turns[-1].consultation)
        _to_the_end(opening)
        _to_the_end(opening.then(opening.session.make(said.Measured({"set": 196.0, "probe": 180.0}))))


def _to_the_end(consultation: Consultation) -> None:
    for _ in range(MOST_STEPS):
        told(consultation)
        advice = consultation.advice
        if advice.kind == "call":
            return
        move: Move = said.CannotTell(advice.id) if advice.kind == "check" else said.TriedFix(advice.id, "same", ())
        consultation = consultation.then(consultation.session.make(move))
    raise AssertionError("never over")


def places(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """The path to everything that can be spoilt."""
    if path:
        yield path
    for key, below in value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ():
        yield from places(below, (*path, key))


def _at(path: tuple[str | int, ...]) -> Any:
    value: Any = SOUND
    for step in path:
        value = value[step]
    return value


PLACES = sorted((path for path in places(SOUND) if len(path) > 1), key=str)
NUMBERED = [path for path in PLACES if isinstance(_at(path), float | int) or _at(path) in CHANCES]
FREE = [path for path in PLACES if path in NUMBERED and path[-1] in PRICES]


def spoilt(changes: list[tuple[tuple[str | int, ...], Any]]) -> dict[str, Any]:
    """The sound files with some values replaced (None: left out)."""
    files = copy.deepcopy(SOUND)
    for path, value in changes:
        *way, last = path
        try:
            holder: Any = files
            for step in way:
                holder = holder[step]
            if value is None:
                del holder[last]
            else:
                holder[last] = value
        except (KeyError, IndexError, TypeError):
            continue  # an earlier change took it away
    return files


def test_the_sound_files_are_clean() -> None:
    stock, problems = stock_of(SOUND)
    assert problems == []
    assert stock is not None
    held(stock)


Change = tuple[tuple[str | int, ...], Any]
any_value = st.tuples(st.sampled_from(PLACES), st.sampled_from((None, *VALUES)))
any_number = st.tuples(st.sampled_from(NUMBERED), st.sampled_from((0, 0, 1, *NUMBERS)))
free = st.lists(st.sampled_from(FREE), unique=True).map(lambda paths: [(path, 0) for path in paths])
changes = st.tuples(st.lists(any_number, max_size=6), free, st.lists(any_value, max_size=2)).map(
    lambda parts: [change for part in parts for change in part]
)


@given(changes)
@daily(50, of=150)
def test_what_is_found_clean_serves(made: list[Change]) -> None:
    stock, problems = stock_of(spoilt(made))
    if stock is not None and not problems:
        held(stock)


def test_what_costs_nothing_is_planned_all_the_same() -> None:
    stock, problems = stock_of(spoilt([(path, 0) for path in FREE]))
    assert problems == []
    assert stock is not None
    held(stock)


NOUGHTS = (
    (KB, "fixes", "press-longer", "cures", "dwell-short"),
    (KB, "scale", 0, "value"),
    (OWN, "adds-to", "fixes", "press-longer", "platen-runs-cool"),
    (OWN, "learned", "cures", "press-longer", "dwell-short"),
)


@pytest.mark.parametrize("path", NOUGHTS, ids=lambda path: "-".join(map(str, path[1:])))
def test_a_fix_that_never_cures_is_not_clean(path: tuple[str | int, ...]) -> None:
    _, problems = stock_of(spoilt([(path, 0)]))
    assert [problem for problem in problems if problem.code in ("out-of-range", "never-cures")]
