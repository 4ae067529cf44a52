"""What is merely usual for an item acquits no cause: a label or a scratch that says otherwise is believed."""

import pytest

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, Move, Pressed, Saw
from diagnose.dialogue.rehearsal import rehearse
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load
from diagnose.knowledge.shop import Shop

KNOWN = load()


def consultation(*moves: Move) -> Consultation:
    return Consultation(KNOWN, Shop(), Session(moves))


def behind(talk: Consultation, cause: str) -> float:
    return talk.beliefs.behind[talk.net.index[cause]]


def steps(talk: Consultation, truth: str) -> list[str]:
    """The kinds of steps that it takes, from a person who knows this cause and answers truly."""
    return [turn.consultation.advice.kind for turn in rehearse(talk, frozenset({truth}))]


def test_a_shirt_whose_label_says_blend_may_hold_too_much_cotton() -> None:
    pale = Pressed("t-shirt-polyester"), Saw(("faint-colour",))
    read = consultation(*pale, Answered("read-the-fibre-label", "blend"))
    assert 0.0 < behind(consultation(*pale), "too-much-cotton") < behind(read, "too-much-cotton")
    assert read.suspects[0].cause == "too-much-cotton"


def test_a_mug_scratched_bare_may_have_no_coating() -> None:
    nothing = Pressed("mug"), Saw(("no-transfer",))
    scratched = consultation(*nothing, Answered("scratch-the-coating", "bare"))
    assert 0.0 < behind(consultation(*nothing), "no-coating") < behind(scratched, "no-coating")
    assert scratched.suspects[0].cause == "no-coating"


def test_a_bare_mug_takes_few_questions_and_no_wrong_fix() -> None:
    taken = steps(consultation(Pressed("mug"), Saw(("no-transfer",))), "no-coating")
    assert taken.count("fix") == 1
    assert taken.count("check") <= 5
    assert "call" not in taken


@pytest.mark.parametrize("told", [{}, {"item.colour": "dark"}])
def test_a_navy_shirt_on_which_the_print_is_lost_is_explained(told: dict[str, str]) -> None:
    lost = consultation(Pressed("t-shirt-polyester", dict(told)), Saw(("lost-on-dark",)))
    assert lost.suspects[0].cause == "item-too-dark"
    assert lost.beliefs.unknown < 0.1


def test_what_was_told_acquits() -> None:
    told = Pressed("t-shirt-polyester", {"item.polyester": 100.0, "item.colour": "white"})
    pale = consultation(told, Saw(("faint-colour",)))
    assert behind(pale, "too-much-cotton") == behind(pale, "item-too-dark") == 0.0
