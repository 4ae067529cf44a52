"""What words entail: closed over, without circles, and at odds with nothing that worked cases hold to be so."""

from collections.abc import Callable
from pathlib import Path

from diagnose.knowledge.loading import inspect, load, shipped_folder
from diagnose.knowledge.ways import answer, entailed, entails, seen
from tests.knowledge.conftest import Change

KNOWLEDGE = load(shipped_folder())


def test_what_is_told_entails_all_that_follows_from_it_each_once() -> None:
    told = ["idle", "answer measure-the-box box-as-platen", "defect press-box"]
    assert entailed(KNOWLEDGE, told) == (
        *told,
        "answer follows-an-edge platen-edge",
        "answer outline-of-the-fault hard-line",
    )
    assert entailed(KNOWLEDGE, ["answer match-stray-mark-to-neighbour fits-neighbour"])[1:] == (
        "defect stray-dye",
        "answer white-ground other-pictures",
    )


def test_what_is_not_known_entails_nothing() -> None:
    for telling in ("", "idle", "defect x", "answer x", "answer which-pieces x", "answer x first-ones", "cause x"):
        assert entailed(KNOWLEDGE, [telling]) == (telling,)


def test_what_a_washed_out_print_tells() -> None:
    assert list(entails(KNOWLEDGE, "defect wash-out")) == ["answer when-it-showed after-washing"]


def test_no_worked_case_says_otherwise() -> None:
    """Where something is seen or answered, an answer to a check that this entails is the one entailed."""
    checked = 0
    for defect in KNOWLEDGE.defects.values():
        for case in defect.cases:
            told = [*map(seen, case.saw), *(answer(*pair) for pair in case.answers.items())]
            for each in entailed(KNOWLEDGE, told)[len(told) :]:
                kind, name, *outcome = each.split()
                assert kind != "answer" or case.answers.get(name, outcome[0]) == outcome[0], case.place
                assert kind != "defect" or name not in case.not_seen, case.place
                checked += 1
    assert checked >= 100


def test_enough_is_entailed_and_nothing_by_an_outcome_that_shows_nothing() -> None:
    outcomes = [(check, each) for check in KNOWLEDGE.checks.values() for each in check.outcomes]
    assert sum(bool(each.also_saw or each.also_answers) for _, each in outcomes) >= 40
    assert sum(bool(each.also_saw or each.also_answers) for each in KNOWLEDGE.defects.values()) >= 25
    assert [
        each.id for check, each in outcomes if (each.also_saw or each.also_answers) and each is check.outcomes[0]
    ] == []


def test_what_is_retired_is_entailed_no_more(tiny: Path, change: Change, shop: Callable[[str, str], Path]) -> None:
    change("rules/faint-colour.yaml", "said: [", "also: {answers: {probe-the-platen: reads-low}}\nsaid: [")
    assert entailed(load(tiny), ["defect faint-colour"])[1:] == ("answer probe-the-platen reads-low",)
    own = shop("kb/retired.yaml", "retire:\n  checks: [probe-the-platen]\n")
    assert {problem.code for problem in inspect(tiny, own)[1]} == {"cause-without-check"}
