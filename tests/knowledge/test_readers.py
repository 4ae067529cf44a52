from collections.abc import Callable
from pathlib import Path

import pytest

from diagnose.knowledge.conditions import ALWAYS, Condition, Span, Test
from diagnose.knowledge.loading import inspect
from diagnose.knowledge.model import SHIPPED, Chance, Knowledge, Settings, Spends


@pytest.fixture
def knowledge(tiny: Path) -> Knowledge:
    loaded, problems = inspect(tiny)
    assert problems == []
    assert loaded is not None
    return loaded


def test_cause(knowledge: Knowledge) -> None:
    cause = knowledge.causes["platen-runs-cool"]
    assert cause.turns_up == Chance(0.07, "rarely")
    assert cause.basis == ("common practice",)
    assert cause.origin == SHIPPED
    assert cause.shapes[0].turns_up == Chance(0.0, "impossible")
    assert cause.shapes[0].condition == Condition(
        (Test("item.hard", (True,), written="true"), Test("item.family", ("ceramic",), written="ceramic"))
    )
    assert knowledge.causes["dwell-short"].turns_up == Chance(0.08)
    assert knowledge.causes["dwell-short"].basis == ("mosteller-youtz-1990", "this shop's cases")


def test_check(knowledge: Knowledge) -> None:
    check = knowledge.checks["probe-the-platen"]
    assert [outcome.id for outcome in check.outcomes] == ["agrees", "reads-low", "timer-jumps"]
    assert check.outcomes[0].shows == {}
    assert check.outcome("reads-low").shows == {"platen-runs-cool": Chance(0.875, "very likely")}
    assert check.outcome("reads-low").otherwise == Chance(0.01, "almost never")
    assert (check.kind, check.minutes, check.needs) == ("measure", 5.0, ("surface probe",))


def test_fix(knowledge: Knowledge) -> None:
    fix = knowledge.fixes["set-heat-by-probe"]
    assert fix.spends == Spends(paper=1.0)
    assert fix.condition == Condition((Test("item.polyester", span=Span(least=50.0), written=">= 50"),))
    assert knowledge.fixes["press-longer"].condition is ALWAYS


def test_item_and_facts(knowledge: Knowledge) -> None:
    item = knowledge.items["tea-towel"]
    assert item.facts == {"item.family": "cloth", "item.polyester": 65.0, "item.hard": False}
    assert item.settings == Settings(
        temperature=(193.0, 200.0), dwell=(45.0, 60.0), pressure="medium", peel="warm", settle=30.0
    )
    assert knowledge.facts["item.family"].words == {"cloth": ("tea towel", "cushion cover")}
    assert (knowledge.facts["item.polyester"].unit, knowledge.facts["item.polyester"].most) == ("%", 100.0)
    assert knowledge.facts["item.hard"].yes_no


def test_defect(knowledge: Knowledge) -> None:
    defect = knowledge.defects["faint-colour"]
    assert defect.otherwise == Chance(0.01, "almost never")
    assert [rule.cause for rule in defect.rules] == ["platen-runs-cool", "dwell-short"]
    assert {(rule.defect, rule.status, rule.date) for rule in defect.rules} == {
        ("faint-colour", "settled", "2026-11-24")
    }
    case = defect.cases[0]
    assert (case.first, case.never, case.item) == (("platen-runs-cool",), ("dwell-short",), "tea-towel")
    assert case.answers == {"probe-the-platen": "reads-low"}


def test_reference(knowledge: Knowledge) -> None:
    assert knowledge.sources["mosteller-youtz-1990"].year == "1990"
    assert knowledge.glossary["dwell"].see == ("platen",)
    assert knowledge.scale["likely"].value == 0.71


def test_places(knowledge: Knowledge, tiny: Path) -> None:
    lines = (tiny / "kb" / "all.yaml").read_text(encoding="utf-8").splitlines()
    for entry in (*knowledge.causes.values(), *knowledge.checks.values(), *knowledge.glossary.values()):
        assert lines[entry.place.line - 1].strip() == f"{entry.id}:"
        assert entry.place.column == 3


def test_a_rule_may_have_a_date_and_status_of_its_own(tiny: Path, change: Callable[[str, str, str], None]) -> None:
    new = "brings: .6\n    status: trial\n    date: 2026-11-25\n    learned-from: [2026-014]\n"
    change("rules/faint-colour.yaml", "brings: .6\n", new)
    loaded, problems = inspect(tiny)
    assert problems == []
    assert loaded is not None
    rule = loaded.defects["faint-colour"].rules[1]
    assert (rule.status, rule.date, rule.learned_from) == ("trial", "2026-11-25", ("2026-014",))


def test_words(tiny: Path) -> None:
    text = "words:\n  pale:\n    note: Weak colour\n    members: [pale, no]\n    as-written: [washed out]\n"
    (tiny / "kb" / "words.yaml").write_text(text + "    plain: true\n", encoding="utf-8")
    loaded, problems = inspect(tiny)
    assert problems == []
    assert loaded is not None
    group = loaded.words["pale"]
    assert (group.members, group.as_written, group.plain) == (("pale", "no"), ("washed out",), True)
