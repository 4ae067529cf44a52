"""The numbers shaken: what moves, what stays, and what the count of steps says."""

from math import log
from random import Random

import pytest

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.network import Network
from diagnose.reasoning.shaking import A_LITTLE, Steadiness, shaken, steadiness
from diagnose.speech.talk import steady
from tests.handbook.browser import knowledge


def odds(chance: float) -> float:
    return log(chance / (1.0 - chance))


def test_every_number_moves_by_just_so_much_and_what_is_impossible_stays_so() -> None:
    net = Network.of({"cool": 0.2, "never": 0.0, "thin": 0.4}, {"faint": (0.05, {"cool": 0.7, "thin": 0.5})})
    other = shaken(net, Random(1), 0.5)
    assert other.priors[1] == 0.0
    pairs = [*zip(net.priors[::2], other.priors[::2], strict=True)]
    pairs += [(own[0], other.defects["faint"].links[cause][0]) for cause, own in net.defects["faint"].links.items()]
    pairs += [(net.defects["faint"].leak[0], other.defects["faint"].leak[0])]
    assert [abs(odds(after) - odds(before)) for before, after in pairs] == pytest.approx([0.5] * 5)


def test_it_goes_both_ways() -> None:
    net = Network.of({f"cause-{number}": 0.3 for number in range(200)}, {})
    up = sum(chance > 0.3 for chance in shaken(net, Random(2), 1.0).priors)
    assert 70 < up < 130


def test_the_count_is_that_of_the_rule_sets_and_always_the_same() -> None:
    now = Consultation(knowledge(), Shop(), Session((Pressed("tea-towel-polyester"), Saw(("press-box",)))))
    shares: list[float] = []
    asked = (now.net, now.evidence, now.desk, now.advice)
    found = steadiness(*asked, times=6, far=shares.append)
    assert 0 <= found.best <= found.good <= found.all == 6
    assert found == steadiness(*asked, times=6)
    assert (shares[0], shares[-1]) == (0.0, 1.0)
    assert A_LITTLE == 0.5, "the sentence names what 70 % becomes"


def test_where_there_is_one_thing_to_do_nothing_hangs_on_the_numbers() -> None:
    assert steady(Steadiness(150, 190, 200)).startswith("This step does not hang on the numbers.")
    assert steady(Steadiness(60, 120, 200)).startswith("This step hangs partly")
    assert steady(Steadiness(150, 190, 200)).endswith("came first in 150, and within a twentieth of the best in 190.")
    assert steady(Steadiness(10, 60, 200)).startswith("This step hangs on the numbers")
