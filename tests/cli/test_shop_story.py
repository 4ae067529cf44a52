"""A shop's story: five towels spoilt by what no rule knows, the rule that comes of them, and what it is worth."""

import json
from pathlib import Path

import pytest

from diagnose.cli import exits, shelf
from diagnose.cli.handbook import drawn
from diagnose.knowledge.loading import shipped_folder
from tests.cli.playing import play

CURE = "work-clear-of-the-cold-zone"
TOLD = ["--item", "polyester tea towel", "--saw", "faint colour", "--answer", "map-the-platen=place-cooler"]
RULE = {
    "--defect": "faint-colour",
    "--cause": "cold-zone",
    "--brings": "very likely",
    "--when": "item.family=cloth",
    "--why": "A towel fills the platen, so what lies in the cool place takes up less dye and comes out pale.",
    "--basis": "this shop's cases",
    "--story": "Five towels in a row came out faint until they were laid clear of the cool place.",
    "--item": "tea-towel",
    "--answer": "map-the-platen=place-cooler",
    "--tried": "set-dwell-as-recipe",
}


def done(*call: str) -> str:
    code, out, err = play([*call])
    assert code == exits.GOOD, err
    return out


def words(text: str) -> str:
    return " ".join(text.split())


def spoil(day: int) -> None:
    done(
        *("cases", "add", *TOLD, "--tried", "set-dwell-as-recipe", "--cured-by", CURE),
        *("--minutes", "40", "--spoilt", "2", "--date", f"2026-11-{day}"),
    )


def test_what_a_shop_learns_at_its_press_is_not_lost(monkeypatch: pytest.MonkeyPatch) -> None:
    done("shop", "new", "quay", "--name", "The harbour workshop", "--currency", "EUR")
    monkeypatch.setenv(shelf.SHOP_VARIABLE, str(Path("quay").absolute()))
    for day in range(11, 16):
        spoil(day)

    lesson = words(done("learn"))
    assert "in 5 of 5 cases" in lesson
    assert "presslore rules new --defect faint-colour --cause cold-zone" in lesson

    suggested = json.loads(done("cases", "list", "--json"))
    assert len(suggested) == 5
    learnt = [part for case in suggested for part in ("--learned-from", case["id"][-8:])]
    kept = words(done("rules", "new", *(part for pair in RULE.items() for part in pair), *learnt, "--yes"))
    assert "Kept. The rule is on trial" in kept

    spoil(16)
    changes = json.loads(done("rules", "diff", "shipped", "quay", "--book", "quay/casebook.sqlite3", "--json"))
    past = changes["past_cases"]
    assert (past["totals"]["sooner"], past["totals"]["later"]) == (6, 0)
    sixth = max(past["cases"], key=lambda case: case["id"])
    assert sixth["minutes_before"] is None  # what ships never proposes the cure
    assert sixth["minutes_after"] is not None

    page = drawn(shipped_folder(), Path("quay"))["defects/faint-colour.md"].decode()
    assert "this shop" in page
    assert "On trial." in page

    assert "Would these numbers have predicted better?" in words(done("learn", "--apply"))
    assert Path("quay/kb/learned.yaml").is_file()
    done("rules", "check")
