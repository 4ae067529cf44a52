"""Looking up: every entry has a page, ids on it lead on, and a page says on whose word it stands."""

import re
from pathlib import Path

import pytest

from diagnose.knowledge.model import Knowledge
from tests.cli.playing import play

KINDS = ("defects", "causes", "checks", "fixes", "items")


@pytest.mark.parametrize("kind", KINDS)
def test_the_list_names_all(kind: str, knowledge: Knowledge) -> None:
    code, out, _ = play([kind])
    assert code == 0
    assert [line.split()[0] for line in out.splitlines() if not line.startswith(" ")] == list(getattr(knowledge, kind))


@pytest.mark.parametrize("kind", KINDS)
def test_every_page_shows_and_its_ids_lead_on(kind: str, knowledge: Knowledge) -> None:
    known = {*knowledge.causes, *knowledge.checks, *knowledge.fixes, *knowledge.defects, *knowledge.care}
    for entry in getattr(knowledge, kind).values():
        code, out, _ = play([kind, entry.id])
        assert code == 0
        assert out.startswith(entry.title)
        outcomes = {outcome.id for outcome in entry.outcomes} if kind == "checks" else set()
        assert set(re.findall(r"\[([a-z0-9-]+)\]", out)) <= known | outcomes
        if kind in ("checks", "fixes", "items"):
            assert "Basis: " in out
        assert not re.search(r"\b(item|press|print)\.[a-z]+\b", out), f"an id of a fact is no word: {entry.id}"


@pytest.mark.parametrize(
    ("page", "says"),
    [
        (["checks", "pull-paper-corners"], "4 min, and an hour for the press to cool"),
        (["fixes", "order-proven-polyester"], "20 min, and 3 days for the cloth to come"),
    ],
)
def test_what_is_waited_for_stands_beside_the_minutes(page: list[str], says: str) -> None:
    code, out, _ = play(page)
    assert code == 0
    assert says in " ".join(out.split())


def test_every_rule_says_why(knowledge: Knowledge) -> None:
    for defect in list(knowledge.defects.values())[::6]:
        for rule in defect.rules:
            code, out, _ = play(["why", rule.cause, defect.id])
            assert code == 0
            assert " ".join(rule.why.split()) in " ".join(out.split())
            assert f"rules/{defect.id}.yaml:" in out
            assert "basis: " in " ".join(out.split())


def test_where_no_rule_joins_two_it_says_so() -> None:
    code, out, err = play(["why", "nozzles-blocked", "creases"])
    assert (code, out) == (1, "")
    assert err.startswith("No rule says")


def test_the_shops_unit_comes_first() -> None:
    celsius = play(["items", "mug"])[1]
    Path("shop.yaml").write_text("units: {temperature: F}\n", encoding="utf-8")
    fahrenheit = play(["items", "mug"])[1]
    assert re.search(r"185–195 °C \(365–383 °F\)", celsius)
    assert re.search(r"365–383 °F \(185–195 °C\)", fahrenheit)


def test_why_one_cause_and_not_another() -> None:
    asked = ["why", "platen-runs-cool", "--rather-than", "dwell-short", "--item", "mug", "--saw", "faint-colour"]
    code, out, err = play([*asked, "--answer", "read-the-set-dwell=dwell-as-recipe"])
    assert (code, err) == (0, "")
    assert " ".join(out.split()).startswith("The platen runs cooler than its display (")
    assert "Compare the set dwell with the recipe: Within five seconds of the recipe: speaks" in " ".join(out.split())


@pytest.mark.parametrize(
    ("more", "expected"),
    [
        ([], "expected a defect after the cause, or --rather-than"),
        (["blotches", "--rather-than", "dwell-short"], "expected a defect after the cause, or --rather-than"),
        (["--rather-than", "damp-item", "--saw", "blotches"], "expected two causes, got damp-item twice"),
        (["--rather-than", "dwell-short"], "expected what is wrong as well"),
        (["--rather-than", "dwel-short", "--saw", "blotches"], "dwell-short"),
    ],
)
def test_why_says_what_it_needs(more: list[str], expected: str) -> None:
    code, _, err = play(["why", "damp-item", *more])
    assert code == 2
    assert expected in " ".join(err.split())
