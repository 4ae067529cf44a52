"""What is merely usual for an item acquits no cause: a label or a scratch that says otherwise is believed."""

from dataclasses import replace

import pytest

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, CannotTell, Move, Named, Pressed, Saw
from diagnose.dialogue.rehearsal import rehearse
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load
from diagnose.knowledge.model import Chance, Check, Fix
from diagnose.knowledge.shop import Press, Shop
from diagnose.speech.conditions import fact_words
from diagnose.speech.talk import summary, why_step

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


# --- kinds of press ---

FLAT = {"clamshell", "swing-away", "drawer", "calender"}


def of_press(step: Check | Fix) -> set[object]:
    """The kinds of press that a step goes with; none where it does not say."""
    return {kind for test in step.condition.tests if test.fact == "press.kind" for kind in test.values}


@pytest.mark.parametrize(
    ("item", "excluded"), [("mug", FLAT), ("steel-bottle", FLAT), ("t-shirt-polyester", {"mug-press", "oven"})]
)
def test_no_step_is_for_a_press_that_the_item_does_not_go_in(item: str, excluded: set[object]) -> None:
    net = consultation(Pressed(item)).net
    steps: list[Check | Fix] = [KNOWN.checks[check] for check in net.checks] + [KNOWN.fixes[fix] for fix in net.cures]
    kinds = [of_press(step) for step in steps if of_press(step)]
    assert kinds
    assert all(each - excluded for each in kinds)


@pytest.mark.parametrize("item", KNOWN.items)
def test_whatever_can_be_behind_it_can_be_put_right(item: str) -> None:
    net = consultation(Pressed(item)).net
    cured = {cause for cures in net.cures.values() for cause, chance in cures.items() if chance}
    assert [net.causes[cause] for cause, chance in enumerate(net.priors) if chance and cause not in cured] == []


def waiting(item: str, *moves: Move) -> Consultation:
    """A consultation in which a step for an oven alone comes first."""
    fix = replace(KNOWN.fixes["hold-blanks-tighter-in-the-oven"], minutes=0.1, cures={"pressure-light": Chance(1.0)})
    knowledge = replace(KNOWN, fixes={"hold-blanks-tighter-in-the-oven": fix})
    told = Pressed(item), Saw(("faint-colour",)), Named("pressure-light"), *moves
    return Consultation(knowledge, Shop(), Session(told))


@pytest.mark.parametrize(
    ("item", "asks", "answer"), [("mug", "which-press-for-round-goods", "oven"), ("", "which-press", "oven")]
)
def test_the_kind_of_press_is_asked_once_before_a_step_that_hangs_on_it(item: str, asks: str, answer: str) -> None:
    asked = [turn.consultation.advice.id for turn in rehearse(waiting(item), frozenset({"pressure-light"}))]
    assert asked.count(asks) <= 1
    before = waiting(item)
    while before.advice.id != asks:
        assert "press.kind" not in {test.fact for test in _step(before).condition.tests}
        before = before.then(before.session.make(CannotTell(before.advice.id)))
    assert why_step(before) == "It tells which steps go with your press."
    told = before.then(before.session.make(Answered(asks, answer)))
    assert told.job["press.kind"] == "oven"
    assert "hold-blanks-tighter-in-the-oven" in told.net.cures
    assert asks not in {turn.consultation.advice.id for turn in rehearse(told, frozenset({"pressure-light"}))}


def test_where_nobody_can_tell_the_press_the_step_is_left_out() -> None:
    untold = waiting("mug", CannotTell("which-press-for-round-goods"))
    ids = [option.step.id for option in untold.advice.options if option.step]
    assert "hold-blanks-tighter-in-the-oven" not in ids


def _step(talk: Consultation) -> Check | Fix:
    return (talk.knowledge.checks if talk.advice.kind == "check" else talk.knowledge.fixes)[talk.advice.id]


def test_a_shop_s_only_press_for_the_item_is_the_one() -> None:
    flat = Press(id="flat", title="The flat one", facts={"press.kind": "clamshell"})
    mugs = Press(id="mugs", title="The mug press", facts={"press.kind": "mug-press"})

    def taken(item: str, *presses: Press) -> Press | None:
        shop = Shop(presses={press.id: press for press in presses})
        return Consultation(KNOWN, shop, Session((Pressed(item),))).press

    assert taken("mug", flat) is None
    assert taken("mug", flat, mugs) is mugs
    assert taken("ceramic-tile", flat, mugs) is flat
    assert taken("", flat, mugs) is None
    assert taken("", flat) is flat


def test_a_question_without_a_fitting_answer_is_not_asked() -> None:
    """A cushion that was pressed round goes neither in a mug press nor in an oven."""
    told = Pressed("velour-cushion", {"item.shape": "curved"}), Saw(("faint-colour",))
    asked = [turn.consultation.advice.id for turn in rehearse(consultation(*told), frozenset({"stack-too-thick"}))]
    assert "which-press-for-round-goods" not in asked


def test_a_summary_says_what_is_usual_and_not_checked() -> None:
    pale = Pressed("t-shirt-polyester"), Saw(("faint-colour",))
    usual = next(line for line in summary(consultation(*pale)) if line.startswith("Usual for this item, not checked"))
    assert "Polyester share: 100 %" in usual
    assert "Ground colour: white" in usual
    read = summary(consultation(*pale, Answered("read-the-fibre-label", "blend")))
    assert not any("Polyester share: 100 %" in line for line in read)
    white = summary(consultation(*pale, Answered("compare-ground-with-paper", "as-white")))
    assert any(line.startswith("Known of it") and "Ground colour: white" in line for line in white)


def test_an_item_s_page_says_what_its_facts_may_be() -> None:
    words = fact_words("item.polyester", KNOWN.items["t-shirt-polyester"].job["item.polyester"], KNOWN.facts)
    assert words == "Polyester share: 100 % (usual; may be 65 % or 0 %)"
