"""The casebook of a shop with several presses: which press a case was on."""

from pathlib import Path

import pytest

from diagnose.casebook.case import Case
from diagnose.casebook.store.casebook import open_book
from diagnose.cli import exits
from tests.cli.playing import play

SHOP = """\
name: The harbour workshop
presses:
  - id: quay
    title: The press by the quay
  - id: loft
    title: The press in the loft
"""
GHOST = ["--item", "mug", "--saw", "ghosting", "--cured-by", "peel-in-one-stroke"]


@pytest.fixture(autouse=True)
def _shop() -> None:
    Path("shop.yaml").write_text(SHOP, encoding="utf-8")


def kept() -> list[Case]:
    with open_book("casebook.sqlite3", create=False) as book:
        return list(book.cases())


def test_a_dialogue_keeps_its_press() -> None:
    typed = ["polyester t-shirt", "2", "there is a rectangle pressed into the shirt", "y", "2", "", "1"]
    _, out, _ = play(["diagnose"], typed, somebody=True)
    assert "Kept in the casebook." in out
    (case,) = kept()
    assert (case.press, case.session.press) == ("loft", "loft")
    with open_book("casebook.sqlite3") as book:
        ((one, _),) = book.patterns()
    assert (one.press, one.session.press) == ("loft", "loft")


def test_a_case_by_hand_keeps_its_press_and_no_other_is_taken() -> None:
    code, _, err = play(["cases", "add", *GHOST, "--press", "quai"])
    assert code == exits.USAGE
    assert "Did you mean quay?" in err
    assert play(["cases", "add", *GHOST, "--press", "quay"])[0] == exits.GOOD
    play(["cases", "add"], ["mug", "1", "ghosting", "y", "n", "n", "", ""], somebody=True)
    play(["cases", "add", "--press", "loft"], ["mug", "ghosting", "y", "n", "n", "", ""], somebody=True)
    assert [(case.press, case.session.press) for case in kept()] == [
        ("quay", "quay"),
        ("quay", "quay"),
        ("loft", "loft"),
    ]
    _, out, _ = play(["cases", "list", "--press", "loft"])
    assert "1 of 3 cases." in out


def test_the_shop_is_found_by_its_option(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)
    play(["cases", "add", *GHOST, "--press", "quay", "--shop", "bench"])
    assert (tmp_path / "bench" / "casebook.sqlite3").exists()
    for call in ("list", "show last", "report", "export"):
        code, out, err = play(["cases", *call.split(), "--shop", "bench"])
        assert (code, err) == (exits.GOOD, "")
        assert out
