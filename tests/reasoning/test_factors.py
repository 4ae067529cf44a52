"""What evidence means for the causes, piece by piece."""

import pytest

from diagnose.reasoning.evidence import BETTER, SAME, Evidence, Tried
from diagnose.reasoning.factors import FADED, FANCIED, IMPROVES, factors, log_of
from diagnose.reasoning.network import FindingNode, Network
from diagnose.reasoning.pulls import ALIVE, Pull

NET = Network(
    causes=("a", "b", "c"),
    priors=(0.2, 0.3, 0.4),
    defects={"d": FindingNode("d", (0.1,), {0: (0.6,), 1: (0.5,)})},
    checks={"k": FindingNode("k", (0.02, 0.03), {0: (0.3, 0.5)}, ("fine", "some", "much"))},
    cures={"f": {0: 0.9}, "g": {0: 0.5, 1: 0.8}},
    index={"a": 0, "b": 1, "c": 2},
)


def test_causes_that_nothing_touches_keep_their_prior_and_cost_nothing() -> None:
    given = factors(NET, Evidence(seen=("d",)))
    assert set(given.modes) == {0, 1}
    assert given.priors == NET.priors


def test_a_defect_seen_must_be_explained_by_what_is_still_there() -> None:
    given = factors(NET, Evidence(seen=("d",), tried=(Tried("f"),)))
    (loud,) = given.loud
    assert loud.lasting
    assert loud.leak == Pull(0.1, 0.9)
    assert loud.pulls == {0: {1: Pull(0.0, 1.0), ALIVE: Pull(0.6, 0.4)}, 1: {ALIVE: Pull(0.5, 0.5)}}


def test_a_defect_not_seen_speaks_against_its_causes() -> None:
    given = factors(NET, Evidence(not_seen=("d",)))
    assert given.loud == []
    total = 0.8 + 0.2 * 0.4  # absent, or present and silent
    assert given.modes[0][ALIVE] == pytest.approx(0.2 * 0.4 / total)
    assert given.absent[0] == pytest.approx(0.8 / total)


def test_fixes_split_a_cause_by_when_it_was_put_right() -> None:
    given = factors(NET, Evidence(tried=(Tried("f"), Tried("g"))))
    assert given.modes[0] == pytest.approx({1: 0.2 * 0.9, 2: 0.2 * 0.1 * 0.5, ALIVE: 0.2 * 0.1 * 0.5})
    assert given.modes[1] == pytest.approx({2: 0.3 * 0.8, ALIVE: 0.3 * 0.2})


@pytest.mark.parametrize(("outcome", "b", "c"), [("some", 0.3, 0.2), ("much", 0.5, 0.5)])
def test_an_outcome_is_the_highest_level_picked(outcome: str, b: float, c: float) -> None:
    (loud,) = factors(NET, Evidence(answers={"k": (outcome, 0)})).loud
    assert loud.pulls[0][ALIVE] == pytest.approx(Pull(b, c))
    assert not loud.lasting


def test_the_quiet_outcome_is_that_nobody_picked_a_level() -> None:
    given = factors(NET, Evidence(answers={"k": ("fine", 0)}))
    assert given.loud == []
    assert given.modes[0][ALIVE] / given.absent[0] == pytest.approx(0.2 * 0.2 / 0.8)


def test_an_answer_speaks_of_the_causes_there_at_its_time() -> None:
    before = factors(NET, Evidence(answers={"k": ("much", 0)}, tried=(Tried("f"),)))
    after = factors(NET, Evidence(answers={"k": ("much", 1)}, tried=(Tried("f"),)))
    assert before.loud[0].pulls[0][1] == pytest.approx(Pull(0.5, 0.5))
    assert after.loud[0].pulls[0][1] == Pull(0.0, 1.0)


def test_what_went_with_a_fix_was_brought_on_by_what_it_put_right_or_faded() -> None:
    given = factors(NET, Evidence(seen=("d",), tried=(Tried("f", gone=("d",)),)))
    (loud,) = given.loud
    assert not loud.lasting
    assert loud.leak == Pull(0.1 * FADED, 0.9)
    assert loud.pulls == {0: {1: Pull(0.6, 0.4), ALIVE: Pull(0.0, 0.4)}, 1: {ALIVE: Pull(0.0, 0.5)}}


def test_better_is_explained_by_what_the_fix_put_right_or_fancied() -> None:
    given = factors(NET, Evidence(seen=("d",), tried=(Tried("f", BETTER),)))
    change = given.loud[-1]
    assert change.leak == pytest.approx(Pull(FANCIED, 1 - FANCIED))
    assert change.pulls == {0: {1: pytest.approx(Pull(IMPROVES, 1 - IMPROVES)), ALIVE: Pull(0.0, 1.0)}}


def test_the_same_as_before_speaks_against_what_the_fix_put_right() -> None:
    unsaid = factors(NET, Evidence(seen=("d",), tried=(Tried("f"),)))
    same = factors(NET, Evidence(seen=("d",), tried=(Tried("f", SAME),)))
    ratio = (same.modes[0][1] / same.modes[0][ALIVE]) / (unsaid.modes[0][1] / unsaid.modes[0][ALIVE])
    assert ratio == pytest.approx(1 - IMPROVES)


def test_weights_sum_to_one_and_what_was_divided_out_is_kept() -> None:
    given = factors(NET, Evidence(not_seen=("d",), answers={"k": ("fine", 0)}))
    for cause, modes in given.modes.items():
        assert given.absent[cause] + sum(modes.values()) == pytest.approx(1.0, abs=1e-15)
    a, b = 0.8 + 0.2 * 0.4 * 0.2, 0.7 + 0.3 * 0.5
    assert given.log_quiet == pytest.approx(log_of(0.9 * 0.95 * a * b))


@pytest.mark.parametrize(
    "evidence",
    [Evidence(seen=("nothing",)), Evidence(not_seen=("nothing",)), Evidence(answers={"nothing": ("fine", 0)})],
)
def test_ids_the_network_does_not_know_are_refused(evidence: Evidence) -> None:
    with pytest.raises(KeyError, match="nothing"):
        factors(NET, evidence)


def test_an_outcome_the_check_does_not_have_is_refused() -> None:
    with pytest.raises(ValueError, match="tuple"):
        factors(NET, Evidence(answers={"k": ("nothing", 0)}))


def test_a_fix_the_network_does_not_know_puts_nothing_right() -> None:
    given = factors(NET, Evidence(seen=("d",), tried=(Tried("unheard of", SAME),)))
    assert given.modes[0].keys() == {ALIVE}
