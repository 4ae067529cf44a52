"""What is known of a press: it sets the prior of its cause, its weight is exact, and old sessions stay readable."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Pressed, Saw
from diagnose.dialogue.saving import from_plain, to_plain
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Chance
from diagnose.knowledge.shop import Known, Press, Shop
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.network import MOST, network
from diagnose.reasoning.reasons import decibans
from diagnose.speech.talk import summary
from tests.dialogue.workshop import KNOWLEDGE

COOL = Known(cause="runs-cool", turns_up=Chance(0.6), since="March", note="runs 6 °C cool")
LEFT = Press(id="left", title="By the window", facts={"press.levelled": True}, known=(COOL,))
RIGHT = Press(id="right", title="The big press")
SHOP = Shop(presses={"left": LEFT, "right": RIGHT})


def on(press: str, shop: Shop = SHOP) -> Consultation:
    return Consultation(KNOWLEDGE, shop, Session((Pressed("fete-towel", {}, press), Saw(("pale",)))))


def test_nothing_known_changes_nothing() -> None:
    assert network(KNOWLEDGE, {}) == network(KNOWLEDGE, {}, ())
    assert on("right").beliefs == on("", Shop()).beliefs


def test_what_is_known_sets_the_prior_of_its_cause_and_of_no_other() -> None:
    plain, known = network(KNOWLEDGE, {}), network(KNOWLEDGE, {}, LEFT.known)
    differ = [cause for cause, i in plain.index.items() if plain.priors[i] != known.priors[i]]
    assert differ == ["runs-cool"]
    assert known.priors[known.index["runs-cool"]] == 0.6


def test_no_cause_is_ever_beyond_doubt() -> None:
    sure = network(KNOWLEDGE, {}, (Known(cause="runs-cool", turns_up=Chance(1.0), note="always"),))
    assert sure.priors[sure.index["runs-cool"]] == MOST


@settings(max_examples=50, deadline=None)
@given(turns_up=st.floats(0.01, 0.95))
def test_its_weight_is_how_far_it_moves_the_odds(turns_up: float) -> None:
    known = Known(cause="runs-cool", turns_up=Chance(turns_up), note="-")
    shop = Shop(presses={"left": Press(id="left", title="Left", known=(known,))})
    there, index = on("left", shop), on("left", shop).net.index["runs-cool"]
    plain = believe(network(KNOWLEDGE, there.job), there.evidence)
    weights = [r.weight for r in there.reasons.get(index, []) if r.finding.kind == "press"]
    moved = decibans(there.beliefs.alive[index]) - decibans(plain.alive[index])
    assert weights == [] or weights == [pytest.approx(moved, abs=1e-6)]
    assert weights or index not in there.reasons


def test_the_facts_of_the_press_hold_for_the_job() -> None:
    assert on("left").job["press.levelled"] is True
    assert on("left").job["press.name"] == "left"
    assert on("", Shop(presses={"left": LEFT})).press == LEFT
    assert on("sold-long-ago").press is None


def test_the_summary_says_what_is_known_of_the_press() -> None:
    assert "Press: By the window (runs 6 °C cool since March)" in summary(on("left"))
    assert not any("press.name" in line for line in summary(on("left")))


def test_a_session_with_and_without_a_press_is_read_back() -> None:
    for press in ("left", ""):
        session = on(press).session
        assert from_plain(to_plain(session)) == session
    old = [{"move": "pressed", "item": "fete-towel", "facts": {}}]
    assert from_plain(old).press == ""
    assert to_plain(from_plain(old)) == old
    with pytest.raises(TypeError):
        from_plain([{**old[0], "press": 5}])
