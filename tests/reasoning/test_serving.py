"""What would fail at the press is found when the rules are checked, and has its place."""

from dataclasses import replace
from typing import Any

from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.shop import Rates
from diagnose.reasoning import serving
from diagnose.reasoning.planning import advise
from diagnose.reasoning.serving import cannot_be_planned
from tests.dialogue.workshop import KNOWLEDGE


def test_a_step_is_planned_for_each_defect_and_all_is_well(monkeypatch: Any) -> None:
    planned = []

    def counting(*args: Any) -> Any:
        planned.append(args[2].seen)
        return advise(*args)

    monkeypatch.setattr(serving, "advise", counting)
    assert list(cannot_be_planned(KNOWLEDGE, Rates())) == []
    assert planned == [(defect,) for defect in KNOWLEDGE.defects]


def test_what_cannot_be_reckoned_with_is_a_problem_with_its_place() -> None:
    wrong: Any = "long"
    spoilt = {key: replace(fix, minutes=wrong) for key, fix in KNOWLEDGE.fixes.items()}
    problems = list(cannot_be_planned(replace(KNOWLEDGE, fixes=spoilt), Rates()))
    assert [problem.code for problem in problems] == ["cannot-be-planned"] * len(KNOWLEDGE.defects)
    assert [problem.place for problem in problems] == [defect.place for defect in KNOWLEDGE.defects.values()]
    assert all(problem.hint and "TypeError" in problem.wrong for problem in problems)


def test_what_ships_serves() -> None:
    assert list(cannot_be_planned(load(shipped_folder()), Rates())) == []
