"""Changing YAML value by value: the smallest diff, comments kept, any text back exactly, all or nothing."""

import difflib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.casebook.writing.yaml_edit import YamlFile
from diagnose.characters import stripped
from diagnose.files.writing import replace_all
from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.knowledge.loading import shipped_folder
from diagnose.problems import PressloreError
from tests.trials import daily

SEEN = st.characters(exclude_categories=["Cs"]).filter(lambda sign: stripped(sign) == sign)


def texts(least: int, most: int) -> st.SearchStrategy[str]:
    """Any text that a file may hold."""
    return st.text(SEEN | st.just("\n"), min_size=least, max_size=most)


SHIPPED = sorted([*(shipped_folder() / "rules").glob("*.yaml"), *(shipped_folder() / "kb").rglob("*.yaml")])
WHOLE = """\
# above
causes:
  damp-item:   # beside the key
    title: Damp   # beside the value
    turns-up: .2
    # between
    about: >-
      Water in the cloth
      turns to steam.
  hot:
    title: 'Too hot'
lists:
  - one  # first
  - {a: 1, b: [x, y,
     z]}  # spread
empty:
last: "end"
# below
"""


def opened(folder: Path, text: str | None = None) -> YamlFile:
    path = folder / "file.yaml"
    if text is not None:
        path.write_bytes(text.encode())
    return YamlFile(path)


def changed_lines(before: str, after: str) -> list[str]:
    """The lines taken out and put in. No line is too common to be compared, as it would be for a usual diff."""
    one, other = before.splitlines(), after.splitlines()
    found: list[str] = []
    for kind, a, b, c, d in difflib.SequenceMatcher(None, one, other, autojunk=False).get_opcodes():
        if kind != "equal":
            found += [*(f"-{line}" for line in one[a:b]), *(f"+{line}" for line in other[c:d])]
    return found


def leaves(value: Any, path: tuple[str | int, ...] = ()) -> list[tuple[tuple[str | int, ...], Any]]:
    if isinstance(value, dict):
        return [leaf for key, each in value.items() for leaf in leaves(each, (*path, key))]
    if isinstance(value, list):
        return [leaf for key, each in enumerate(value) for leaf in leaves(each, (*path, key))]
    return [(path, value)]


def test_there_are_shipped_files() -> None:
    assert len(SHIPPED) > 60


@given(data=st.data())
@daily(30, of=60)
def test_as_many_lines_differ_as_chances_are_changed(data: st.DataObject) -> None:
    file = YamlFile(data.draw(st.sampled_from(SHIPPED)))
    chances = [path for path, value in leaves(file.get()) if path[-1] in ("brings", "turns-up", "otherwise", "minutes")]
    chosen = data.draw(st.lists(st.sampled_from(chances), unique=True, max_size=12)) if chances else []
    before = file.text()
    for number, path in enumerate(chosen):
        file.set(path, 0.123 + number / 1000)
    after = file.text()
    assert len(changed_lines(before, after)) == 2 * len(chosen)
    assert all(file.get(*path) == pytest.approx(0.123 + n / 1000) for n, path in enumerate(chosen))


@given(data=st.data())
@daily(30, of=60)
def test_setting_what_is_there_changes_nothing(data: st.DataObject) -> None:
    file = YamlFile(data.draw(st.sampled_from(SHIPPED)))
    path, value = data.draw(st.sampled_from([leaf for leaf in leaves(file.get()) if leaf[1] is not None]))
    file.set(path, value)
    whole = file.get(path[0])
    file.set(path[:1], whole)
    assert not file.changed


@given(data=st.data(), words=texts(1, 80))
@daily(60, of=200)
def test_any_text_comes_back_exactly_from_any_place(data: st.DataObject, words: str) -> None:
    file = YamlFile(data.draw(st.sampled_from(SHIPPED[:40])))
    path, _ = data.draw(st.sampled_from(leaves(file.get())))
    before = file.get()
    file.set(path, words)
    document, problems = read_yaml(file.data, "file")
    assert problems == []
    assert document is not None
    assert dict(leaves(document.value)) == {**dict(leaves(before)), path: words}


VALUES = st.recursive(
    texts(0, 30) | st.booleans() | st.integers(-(10**9), 10**9) | st.floats(0, 1).map(lambda x: round(x, 6)),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(texts(1, 12), inner, max_size=5),
    max_leaves=8,
)


@given(value=VALUES, other=VALUES, key=texts(1, 10))
@daily(120, of=300)
def test_any_value_is_added_replaced_and_removed(
    value: Any, other: Any, key: str, tmp_path_factory: pytest.TempPathFactory
) -> None:
    file = opened(tmp_path_factory.mktemp("edit"), WHOLE)
    before = file.get()
    file.set(("new", key), value, comment="why")
    assert file.get("new", key) == value
    file.append(("lists",), value)
    assert file.get("lists", 2) == value
    file.set(("lists", 0), other)
    file.set(("new", key), other)
    assert (file.get("new", key), file.get("lists", 0)) == (other, other)
    file.set(("lists", 0), "one")
    file.remove(("lists", 2))
    file.remove(("new",))
    assert file.get() == before
    assert "# between" in file.text()
    assert "# below" in file.text()


@given(before=VALUES, after=VALUES)
@daily(120, of=300)
def test_one_value_becomes_any_other(before: Any, after: Any, tmp_path_factory: pytest.TempPathFactory) -> None:
    file = opened(tmp_path_factory.mktemp("edit"))
    file.set(("a", "b"), before)
    file.set(("a", "b"), after)
    assert file.get("a", "b") == after


@pytest.mark.parametrize(
    ("change", "diff"),
    [
        (lambda f: f.set(("causes", "damp-item", "turns-up"), 0.25), ["-    turns-up: .2", "+    turns-up: 0.25"]),
        (
            lambda f: f.set(("causes", "damp-item", "title"), "Wet"),
            ["-    title: Damp   # beside the value", "+    title: Wet   # beside the value"],
        ),
        (
            lambda f: f.set(("causes", "cold"), {"title": "Cold: very"}, "Learnt here."),
            ["+  # Learnt here.", '+  cold: {title: "Cold: very"}'],
        ),
        (lambda f: f.append(("lists",), "no"), ['+  - "no"']),
        (lambda f: f.set(("lists", 1, "c"), 3), ["-     z]}  # spread", "+     z], c: 3}  # spread"]),
        (lambda f: f.append(("lists", 1, "b"), "w"), ["-     z]}  # spread", "+     z, w]}  # spread"]),
        (lambda f: f.remove(("lists", 0)), ["-  - one  # first"]),
        (lambda f: f.set(("empty",), "12:30"), ["-empty:", '+empty: "12:30"']),
        (lambda f: f.set(("causes", "hot", "about"), "Hot."), ["+    about: Hot."]),
        (lambda f: f.set(("last",), "fine"), ['-last: "end"', "+last: fine"]),
        (lambda f: f.append(("fresh",), {"a": "b"}), ["+fresh:", "+  - a: b"]),
    ],
)
def test_the_smallest_change(tmp_path: Path, change: Any, diff: list[str]) -> None:
    file = opened(tmp_path, WHOLE)
    change(file)
    assert changed_lines(WHOLE, file.text()) == diff


def test_a_long_text_is_folded_within_the_width(tmp_path: Path) -> None:
    file = opened(tmp_path)
    words = "Water in the cloth turns to steam, and steam keeps the sheet off: " * 5
    file.set(("causes", "damp", "about"), words.strip())
    assert file.text().startswith("causes:\n  damp:\n    about: >-\n      Water")
    assert max(map(len, file.text().splitlines())) <= 110


def test_line_ends_and_the_byte_order_mark_are_kept(tmp_path: Path) -> None:
    file = opened(tmp_path, "\ufeffa: 1\r\nb:\r\n  - x\r\n")
    file.append(("b",), {"c": "d", "e": "f"})
    assert file.text() == "\ufeffa: 1\r\nb:\r\n  - x\r\n  - c: d\r\n    e: f\r\n"


def test_a_new_file_begins_with_its_comment(tmp_path: Path) -> None:
    file = YamlFile(tmp_path / "kb" / "own.yaml", head="What we learnt.\nAt the press.")
    file.set(("causes", "damp", "title"), "Damp")
    file.save()
    assert (tmp_path / "kb" / "own.yaml").read_text() == (
        "# What we learnt.\n# At the press.\ncauses:\n  damp: {title: Damp}\n"
    )


def test_a_file_changed_by_somebody_else_is_left_alone(tmp_path: Path) -> None:
    file = opened(tmp_path, WHOLE)
    file.set(("last",), "mine")
    file.path.write_text("theirs: 1\n")
    with pytest.raises(PressloreError, match="somebody changed this file meanwhile"):
        file.save()
    assert file.path.read_text() == "theirs: 1\n"
    assert [path.name for path in tmp_path.iterdir()] == ["file.yaml"]


def test_a_file_made_by_somebody_else_is_left_alone(tmp_path: Path) -> None:
    file = opened(tmp_path)
    file.set(("last",), "mine")
    file.path.write_text("theirs: 1\n")
    with pytest.raises(PressloreError, match="meanwhile"):
        file.save()
    assert file.path.read_text() == "theirs: 1\n"


def test_all_files_or_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first, second = tmp_path / "a.yaml", tmp_path / "b" / "b.yaml"
    first.write_bytes(b"a: 1\n")
    calls: list[Any] = []

    def failing(source: Any, target: Any) -> None:
        calls.append(target)
        if len(calls) == 2:
            raise KeyboardInterrupt
        Path(target).write_bytes(Path(source).read_bytes())
        Path(source).unlink()

    monkeypatch.setattr("os.replace", failing)
    with pytest.raises(KeyboardInterrupt):
        replace_all({first: (b"a: 1\n", b"a: 2\n"), second: (None, b"b: 1\n")})
    assert first.read_bytes() == b"a: 1\n"
    assert not second.exists()
    assert [path.name for path in tmp_path.iterdir() if path.is_file()] == ["a.yaml"]


@pytest.mark.parametrize("text", ["a: &x 1\n", "a: 1\na: 2\n", "a: [\n", "a:\t1\n"])
def test_what_presslore_would_refuse_is_not_edited(tmp_path: Path, text: str) -> None:
    with pytest.raises(PressloreError, match=r"file\.yaml"):
        opened(tmp_path, text)


@pytest.mark.parametrize(
    "value", [float("nan"), float("inf"), 10**20, None, "half \ud800 a letter", "\x1b[2J", "a\u202eb"]
)
def test_what_cannot_be_written_leaves_the_file_as_it_was(tmp_path: Path, value: Any) -> None:
    file = opened(tmp_path, WHOLE)
    with pytest.raises(PressloreError):
        file.set(("last",), value)
    assert file.text() == WHOLE
