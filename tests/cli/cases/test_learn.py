"""``presslore learn``: what it says, writes and takes back; and that nothing is applied unless asked."""

import json
from pathlib import Path

import pytest

from diagnose.casebook.learning.keeping import FILE
from diagnose.casebook.store.casebook import open_book
from diagnose.knowledge.model import Knowledge
from tests.casebook.learning.harbour import Harbour
from tests.cli.playing import PLAIN, play


@pytest.fixture
def shop(tmp_path: Path, knowledge: Knowledge) -> Path:
    """A shop's folder with forty cases in its casebook."""
    folder = tmp_path / "shop"
    folder.mkdir()
    (folder / "shop.yaml").write_text("name: The harbour workshop\n", encoding="utf-8")
    with open_book(folder / "casebook.sqlite3") as book:
        book.add(Harbour(knowledge, seed=31).cases(40))
    return folder


def test_it_says_what_would_change_and_changes_nothing(shop: Path) -> None:
    code, out, err = play(["learn", "--shop", str(shop)])
    assert (code, err) == (0, "")
    assert "What 40 cases teach" in out
    assert "More than was thought:" in out
    assert "Less than was thought:" in out
    assert "→" in out
    assert "Would these numbers have predicted better?" in out
    assert "Nothing was changed. To use these numbers: presslore learn --apply" in out
    assert not (shop / FILE).exists()


def test_all_shows_every_number(shop: Path) -> None:
    _, out, _ = play(["learn", "--shop", str(shop), "--json"])
    said = json.loads(out)
    _, out, _ = play(["learn", "--shop", str(shop), "--all"])
    assert out.count("· ") == len(said["changes"]) + len(said["minutes"])
    assert "more: presslore learn --all" not in out


def test_a_narrow_terminal_without_letters_beyond_ascii(shop: Path) -> None:
    _, out, _ = play(["learn", "--shop", str(shop)], environment={**PLAIN, "COLUMNS": "40"})
    assert max(len(line) for line in out.splitlines() if "/" not in line) <= 40


def test_json_is_one_value_with_everything_in_it(shop: Path) -> None:
    code, out, err = play(["learn", "--shop", str(shop), "--json"])
    said = json.loads(out)
    assert (code, err) == (0, "")
    assert (said["kept"], said["cases"], said["written"]) == (40, 40, None)
    assert {change["kind"] for change in said["changes"]} >= {"turns up", "brings on"}
    change = said["changes"][0]
    assert 0.0 < change["to"]["chance"] < 1.0
    assert change["cases"] <= 40.0
    assert set(said["predicts"]) == {"cases", "cures", "log_score_gained", "brier_saved", "calibration"}
    assert set(said["suggestions"]) == {"rules", "conditions"}


def test_apply_writes_and_undo_takes_back(shop: Path) -> None:
    code, out, _ = play(["learn", "--shop", str(shop), "--apply"])
    assert code == 0
    assert f"Written to {shop / FILE}. To take it back: presslore learn --undo" in " ".join(out.split())
    assert "basis: this shop's cases" in (shop / FILE).read_text(encoding="utf-8")
    code, out, _ = play(["rules", "check", str(shop)])
    assert code == 0
    code, out, _ = play(["learn", "--shop", str(shop), "--apply"])
    assert "Nothing to write" in out
    code, out, _ = play(["learn", "--shop", str(shop), "--undo"])
    assert (code, (shop / FILE).exists()) == (0, False)
    code, _, err = play(["learn", "--shop", str(shop), "--undo"])
    assert code == 1
    assert "no change by `presslore learn --apply` to take back" in err


def test_without_a_shop_nothing_can_be_written(tmp_path: Path) -> None:
    for flag in ("--apply", "--undo"):
        code, out, err = play(["learn", flag])
        assert (code, out) == (1, "")
        assert "there is no shop folder to write into" in err


def test_both_at_once_is_no_call() -> None:
    code, _, err = play(["learn", "--apply", "--undo"])
    assert code == 2
    assert "name one of them" in err


def test_without_a_casebook_it_says_so() -> None:
    code, out, err = play(["learn"])
    assert (code, out) == (0, "")
    assert "There is no casebook yet" in err


def test_an_empty_casebook_teaches_nothing(tmp_path: Path) -> None:
    open_book(tmp_path / "book.sqlite3").close()
    code, out, _ = play(["learn", "--book", str(tmp_path / "book.sqlite3")])
    assert code == 0
    assert "There is no case to learn from yet" in out
