"""What differs from the last good piece speaks for its kind of cause, what is alike against it, within one bound."""

from math import log

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.cli.shop.shelf import shipped
from diagnose.foresight.last_good import ALIKE, APART, CHECK, DIFFERS, GOODS, LESS, MORE, figures_then, goods_then
from tests.trials import daily

KNOWN = shipped()


def test_every_cause_and_outcome_that_is_spoken_of_is_known() -> None:
    causes = [cause for table in (LESS, MORE, ALIKE) for own in table.values() for cause in own]
    assert {*causes} <= {*KNOWN.causes}
    assert {*GOODS.values()} <= {outcome.id for outcome in KNOWN.checks[CHECK].outcomes}
    assert LESS.keys() == MORE.keys() == APART.keys()


@pytest.mark.parametrize(
    ("kind", "was", "now", "way", "speaks"),
    [
        ("set", 200.0, 190.0, "less", {"set-temp-low": DIFFERS}),
        ("set", 200.0, 210.0, "more", {"set-temp-high": DIFFERS}),
        ("set", 200.0, 201.9, "alike", dict.fromkeys(("set-temp-low", "set-temp-high", "degrees-mixed-up"), 0.333333)),
        ("dwell", 60.0, 40.0, "less", {"dwell-short": DIFFERS}),
        ("dwell", 60.0, 62.0, "alike", dict.fromkeys(("dwell-short", "dwell-long"), 0.333333)),
        ("sheets", 1.0, 3.0, "more", {"stack-too-thick": DIFFERS}),
    ],
)
def test_a_figure_speaks_of_being_set_otherwise(
    kind: str, was: float, now: float, way: str, speaks: dict[str, float]
) -> None:
    (found,) = figures_then({kind: was}, {kind: (now, 2)}, KNOWN)
    assert (found.way, dict(found.ratios), found.period) == (way, speaks, 2)


def test_goods_speak_by_the_check_that_asks_what_is_new() -> None:
    (other,) = goods_then({"paper": "the green box"}, {"paper": ("the blue box", 0)}, KNOWN)
    (alike,) = goods_then({"paper": "the green box"}, {"paper": ("The  Green box", 0)}, KNOWN)
    new = next(outcome for outcome in KNOWN.checks[CHECK].outcomes if outcome.id == "new-paper")
    assert other.ratios.keys() == alike.ratios.keys() == new.shows.keys()
    assert other.ratios["paper-too-light"] == DIFFERS
    assert alike.ratios["paper-too-light"] == round(1 / DIFFERS, 6)
    assert alike.ratios["room-too-damp"] == round(1 - new.shows["room-too-damp"].value, 6)
    assert "set-temp-low" not in other.ratios


@daily(30, of=200)
@given(
    was=st.dictionaries(st.sampled_from(sorted(APART)), st.floats(0.001, 600)),
    now=st.dictionaries(st.sampled_from(sorted(APART)), st.tuples(st.floats(0.001, 600), st.just(0))),
    good=st.dictionaries(st.sampled_from(sorted(GOODS)), st.sampled_from(("a", "b"))),
    used=st.dictionaries(st.sampled_from(sorted(GOODS)), st.tuples(st.sampled_from(("a", "b")), st.just(0))),
)
def test_nothing_speaks_beyond_the_bound_and_alike_never_for_a_cause(
    was: dict[str, float],
    now: dict[str, tuple[float, int]],
    good: dict[str, str],
    used: dict[str, tuple[str, int]],
) -> None:
    found = [*figures_then(was, now, KNOWN), *goods_then(good, used, KNOWN)]
    assert [each.kind for each in found] == [k for k in APART if k in was and k in now] + [
        k for k in GOODS if k in good and k in used
    ]
    for each in found:
        assert all(abs(log(ratio)) <= log(DIFFERS) + 1e-5 for ratio in each.ratios.values())
        assert all((ratio <= 1.0) == (each.way == "alike") for ratio in each.ratios.values())
