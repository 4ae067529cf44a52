"""The answer that does not go with the rest: it is named, may be looked at again, and then stands."""

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, CannotTell, Move, Pressed, Saw
from diagnose.dialogue.saving import to_json, to_plain, version_of
from diagnose.dialogue.session import Session
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.trouble import PlannedQuestion
from diagnose.speech.talk import look_again
from tests.dialogue.saved import from_json
from tests.handbook.browser import knowledge
from tests.handbook.test_engine import same

KNOWN = knowledge()
DOUBTED = "print-the-nozzle-pattern"
SAID = Session(
    (
        Pressed("tea-towel-polyester"),
        Saw(("banding",)),
        Answered("printed-sheet-before-pressing", "sheet-shows-fault"),
        Answered(DOUBTED, "whole"),
        Answered("clean-once-and-print-it-again", "fewer-or-same-place"),
        Answered("turn-the-piece", "with-the-sheet"),
        Answered("stripes-direction", "along-head-travel"),
    )
)


def looked_at(session: Session, *moves: Move) -> Consultation:
    return Consultation(KNOWN, Shop(), Session((*session.moves, *moves)))


def test_gaps_after_cleaning_do_not_go_with_a_whole_pattern_before() -> None:
    now = looked_at(SAID)
    assert now.doubted == {DOUBTED: "whole"}
    looks = KNOWN.checks[DOUBTED].outcome("whole").looks
    assert look_again(now, KNOWN.checks[DOUBTED]).startswith(f"You said “{looks}”. That does not go with the rest")
    assert look_again(now, KNOWN.checks["turn-the-piece"]) == ""


def test_a_second_look_is_planned_like_any_other_question() -> None:
    others = [CannotTell(check) for check in KNOWN.checks if check not in SAID.evidence.answers]
    now = looked_at(SAID, *others)
    asked = {option.step.id for option in now.advice.options if isinstance(option.step, PlannedQuestion)}
    assert asked == {DOUBTED}


def test_once_looked_at_again_it_stands_whatever_is_said_then() -> None:
    for again in (Answered(DOUBTED, "whole", again=True), Answered(DOUBTED, "gaps", again=True), CannotTell(DOUBTED)):
        now = looked_at(SAID, again)
        assert DOUBTED not in now.doubted
        assert now.session.looked_again == {DOUBTED}


def test_another_answer_moves_the_belief_and_the_same_one_more_than_once_said() -> None:
    def blocked(*moves: Move) -> float:
        now = looked_at(SAID, *moves)
        return now.beliefs.behind[now.net.index["nozzles-blocked"]]

    assert blocked(Answered(DOUBTED, "gaps", again=True)) > blocked() > blocked(Answered(DOUBTED, "whole", again=True))


def test_the_page_doubts_the_same_and_knows_a_second_look() -> None:
    same(SAID)
    for outcome in ("whole", "gaps"):
        same(SAID.make(Answered(DOUBTED, outcome, again=True)))


def test_it_is_kept_as_it_was_said_and_only_then_asks_for_the_newest_version() -> None:
    twice = SAID.make(Answered(DOUBTED, "whole", again=True))
    assert from_json(to_json(twice, "any"))[0] == twice
    assert (version_of(SAID), version_of(twice)) == (1, 4)
    assert "again" not in to_plain(SAID)[3]
    assert to_plain(twice)[-1] == {"move": "answered", "check": DOUBTED, "outcome": "whole", "again": True}
