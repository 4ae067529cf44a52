"""A shop's story: five towels spoilt by what no rule knows, the rule that comes of them, and what it is worth."""

import json
from pathlib import Path

import pytest

from diagnose.cli import exits
from diagnose.cli.handbook import drawn
from diagnose.cli.shop import shelf
from diagnose.knowledge.loading import shipped_folder
from tests.checkout import CHECKOUT
from tests.cli.playing import play

QUAY = CHECKOUT / "tests" / "cases" / "quay"


def done(*call: str | Path) -> str:
    code, out, err = play([str(part) for part in call])
    assert code == exits.GOOD, err
    return out


def words(text: str) -> str:
    return " ".join(text.split())


def test_what_a_shop_learns_at_its_press_is_not_lost(monkeypatch: pytest.MonkeyPatch) -> None:
    done("shop", "new", "quay", "--name", "The harbour workshop", "--currency", "EUR")
    monkeypatch.setenv(shelf.SHOP_VARIABLE, str(Path("quay").absolute()))
    done("cases", "import", QUAY / "five-towels.jsonl")

    lesson = words(done("learn"))
    assert "in 5 of 5 cases" in lesson
    assert "presslore rules new --defect faint-colour --cause draught-on-press" in lesson
    assert "Kept. The rule is on trial" in words(done("rules", "new", "--draft", QUAY / "open-door.yaml", "--yes"))

    done("cases", "import", QUAY / "sixth-towel.jsonl")
    past = json.loads(done("rules", "diff", "shipped", "quay", "--book", "quay/casebook.sqlite3", "--json"))[
        "past_cases"
    ]
    assert (past["totals"]["sooner"], past["totals"]["later"]) == (6, 0)
    sixth = max(past["cases"], key=lambda case: case["id"])
    by_hand = json.loads((QUAY / "sixth-towel.jsonl").read_text(encoding="utf-8"))["minutes"]
    assert sixth["minutes_before"] is None  # what ships never proposes the cure
    assert sixth["minutes_after"] < by_hand

    page = drawn(shipped_folder(), Path("quay"))["defects/faint-colour.md"].decode()
    assert "this shop" in page
    assert "On trial." in page

    assert "Would these numbers have predicted better?" in words(done("learn", "--apply"))
    assert Path("quay/kb/learned.yaml").is_file()
    done("rules", "check")
