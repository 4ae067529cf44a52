"""The made-up person answers truly: as the causes most surely show, and cured by what most likely cures."""

import pytest

from diagnose.dialogue.moves import Answered, Cured, HandedOver, TriedFix
from diagnose.dialogue.rehearsal import MOST_STEPS, rehearse, true_outcome
from diagnose.dialogue.session import Session
from tests.dialogue.workshop import KNOWLEDGE, at_work, opened

TRUTHS = {
    "runs-cool": ("pale",),
    "too-short": ("pale",),
    "sheet-slips": ("second-copy",),
    "damp-towel": ("steam-marks",),
}


def last(seen: tuple[str, ...], *truth: str) -> Session:
    """The session when the rehearsal is over."""
    turn = list(rehearse(at_work(opened(*seen)), frozenset(truth)))[-1]
    return turn.consultation.session.make(turn.move)


@pytest.mark.parametrize("truth", TRUTHS)
def test_each_cause_is_found_and_cured(truth: str) -> None:
    over = last(TRUTHS[truth], truth).over
    assert isinstance(over, Cured)
    assert KNOWLEDGE.fixes[over.fix].cures[truth].value >= 0.5


def test_two_causes_are_cured_one_after_the_other() -> None:
    session = last(("pale", "second-copy"), "too-short", "sheet-slips")
    assert isinstance(session.over, Cured)
    helped = [move for move in session.moves if isinstance(move, TriedFix) and move.change == "better"]
    assert [move.gone for move in helped] in ([("pale",)], [("second-copy",)])


def test_what_the_rules_cannot_explain_ends_in_a_call() -> None:
    assert isinstance(last(("steam-marks",), "sheet-slips", "runs-cool").over, Cured | HandedOver)
    turns = list(rehearse(at_work(opened("second-copy")), frozenset({"damp-towel", "sheet-slips"})))
    assert len(turns) < MOST_STEPS


def test_answers_are_what_the_causes_show() -> None:
    net = at_work(opened("pale")).net
    assert true_outcome(net, "probe", {"runs-cool"}) == "reads-low"
    assert true_outcome(net, "probe", {"too-short"}) == "nothing"
    assert true_outcome(net, "tape", {"sheet-slips"}) == "loose"
    assert true_outcome(net, "tape", set()) == "nothing"
    for turn in rehearse(at_work(opened("pale")), frozenset({"runs-cool"})):
        if isinstance(turn.move, Answered):
            assert turn.move.outcome == true_outcome(net, turn.move.check, {"runs-cool"})


def test_nothing_is_asked_or_tried_twice() -> None:
    turns = list(rehearse(at_work(opened("pale", "steam-marks")), frozenset({"damp-towel", "runs-cool"})))
    advised = [turn.consultation.advice.id for turn in turns]
    assert len(advised) == len(set(advised))
