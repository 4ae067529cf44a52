"""The session as a value: what order does not matter, and what is no evidence."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from diagnose.dialogue.moves import (
    Answered,
    CannotDo,
    CannotTell,
    Cured,
    DidNotSee,
    HandedOver,
    Measured,
    Move,
    Pressed,
    Saw,
    TriedFix,
)
from diagnose.dialogue.session import Session
from diagnose.reasoning.evidence import Tried
from tests.dialogue.workshop import at_work, between_fixes, opened, sessions


def _once(move: Move) -> object:
    """What may be told once only, for its order not to matter."""
    return "figures" if isinstance(move, Measured) else move.check if isinstance(move, Answered) else move


@st.composite
def told_in_two_orders(draw: st.DrawFn) -> tuple[Session, Session]:
    """Moves between two fixes in two orders, each check answered once, and figures told once."""
    before, after = draw(sessions), draw(st.lists(st.builds(TriedFix, st.just("pre-press")), max_size=1))
    told = draw(st.lists(between_fixes, max_size=6, unique_by=_once))
    turned = draw(st.permutations(told))
    return Session((*before.moves, *told, *after)), Session((*before.moves, *turned, *after))


@settings(max_examples=60, deadline=None)
@given(both=told_in_two_orders())
def test_the_order_of_what_is_told_between_fixes_does_not_matter(both: tuple[Session, Session]) -> None:
    one, other = both
    assert one.evidence == other.evidence
    assert one.closed == other.closed
    assert one.set_aside == other.set_aside
    assert at_work(one).beliefs.alive == pytest.approx(at_work(other).beliefs.alive, abs=1e-12)
    assert at_work(one).beliefs.behind == pytest.approx(at_work(other).beliefs.behind, abs=1e-12)


def test_what_is_told_before_a_fix_counts_otherwise_than_after_it() -> None:
    answer, fix = Answered("feel", "damp"), TriedFix("pre-press", "same")
    before = at_work(opened("pale").make(answer).make(fix)).beliefs
    after = at_work(opened("pale").make(fix).make(answer)).beliefs
    assert before.alive != pytest.approx(after.alive, abs=1e-3)


@settings(max_examples=60, deadline=None)
@given(session=sessions, check=st.sampled_from(("probe", "clock", "tape", "feel")))
def test_cannot_tell_changes_no_belief(session: Session, check: str) -> None:
    after = session.make(CannotTell(check))
    assert after.evidence == session.evidence
    assert at_work(after).beliefs == at_work(session).beliefs
    assert check in after.closed


@settings(max_examples=60, deadline=None)
@given(session=sessions, fix=st.sampled_from(("pre-press", "iron-dry")))
def test_cannot_do_changes_no_belief(session: Session, fix: str) -> None:
    after = session.make(CannotDo(fix))
    assert at_work(after).beliefs == at_work(session).beliefs
    assert fix in after.set_aside


@given(session=sessions)
def test_a_move_leaves_the_old_session_alone(session: Session) -> None:
    moves = session.moves
    session.make(Saw(("pale",)))
    assert session.moves == moves


def test_what_was_seen_stays_seen() -> None:
    for moves in ((Saw(("pale",)), DidNotSee(("pale",))), (DidNotSee(("pale",)), Saw(("pale",)))):
        evidence = Session(moves).evidence
        assert (evidence.seen, evidence.not_seen) == (("pale",), ())


def test_the_last_item_counts_and_later_words_on_the_job_win() -> None:
    first = Pressed("fete-towel", {"item.thickness": 1.0, "press.levelled": True})
    session = Session((first, Pressed("harbour-tile", {"item.thickness": 8.0})))
    assert session.item == "harbour-tile"
    assert session.facts == {"item.thickness": 8.0, "press.levelled": True}
    assert at_work(session).job["item.family"] == "ceramic"


def test_fixes_tried_are_kept_in_their_order_with_what_they_changed() -> None:
    session = opened("pale", "second-copy").make(TriedFix("tape-the-sheet", "better", ("second-copy",)))
    session = session.make(TriedFix("pre-press"))
    assert session.evidence.tried == (Tried("tape-the-sheet", "better", ("second-copy",)), Tried("pre-press"))
    assert session.evidence.left == ("pale",)


@pytest.mark.parametrize("end", [Cured("pre-press"), Cured(), HandedOver()])
def test_a_session_is_over_when_the_print_is_good_or_help_is_called(end: Move) -> None:
    assert opened("pale").over is None
    assert opened("pale").make(end).over == end


@settings(max_examples=60, deadline=None)
@given(session=sessions, first=st.sampled_from(("pale", "second-copy", "steam-marks")))
def test_what_was_closed_set_aside_or_tried_comes_back_only_to_be_looked_at_again(session: Session, first: str) -> None:
    session = Session((Saw((first,)), *session.moves))
    assume(session.evidence.left)
    gone = session.closed | session.set_aside | {tried.fix for tried in session.evidence.tried}
    now = at_work(session)
    again = set(now.doubted)
    assert again <= session.closed - session.looked_again
    assert all(option.step is None or option.step.id not in gone - again for option in now.advice.options)
    assert now.advice.id not in gone - again


@settings(max_examples=25, deadline=None)
@given(first=st.sampled_from(("pale", "second-copy", "steam-marks")), luck=st.randoms(use_true_random=False))
def test_whatever_is_answered_a_session_ends_in_a_call_at_last(first: str, luck: object) -> None:
    now = at_work(opened(first))
    steps = 0
    while now.advice.kind != "call":
        steps += 1
        assert steps <= 2 * len(now.knowledge.checks) + len(now.knowledge.fixes)  # each check twice at most
        move: Move = TriedFix(now.advice.id, "same")
        if now.advice.kind == "check":
            outcomes = now.knowledge.checks[now.advice.id].outcomes
            again = now.advice.id in now.doubted
            move = Answered(now.advice.id, luck.choice(outcomes).id, again)  # type: ignore[attr-defined]
        now = now.then(now.session.make(move))


def test_the_same_session_is_always_given_the_same_advice() -> None:
    session = opened("pale", "steam-marks")
    assert at_work(session).advice.id == at_work(session).advice.id
    one, other = at_work(session).advice, at_work(session).advice
    assert (one.kind, one.id, one.cost, one.minutes) == (other.kind, other.id, other.cost, other.minutes)
