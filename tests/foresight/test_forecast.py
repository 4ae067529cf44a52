"""The rules run forwards, held against counting out every state of every cause."""

from itertools import product
from math import prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.foresight.forecast import behind, forecast, measure_for
from diagnose.reasoning.network import Network

CHANCE = st.floats(0.0, 0.99)
PRIORS = st.lists(CHANCE, min_size=1, max_size=4)


@st.composite
def nets(draw: st.DrawFn) -> Network:
    """Small networks of causes and defects."""
    priors = {f"c{number}": chance for number, chance in enumerate(draw(PRIORS))}
    strengths = st.dictionaries(st.sampled_from(sorted(priors)), CHANCE, max_size=4)
    defects = st.lists(st.tuples(st.floats(0.0, 0.5), strengths), min_size=1, max_size=3)
    return Network.of(priors, {f"d{number}": defect for number, defect in enumerate(draw(defects))})


def priors_of(net: Network) -> dict[str, float]:
    return dict(zip(net.causes, net.priors, strict=True))


def counted_out(net: Network) -> tuple[dict[str, float], float]:
    """The chance of each defect and of any, by going through every state of the causes."""
    seen = dict.fromkeys(net.defects, 0.0)
    any_seen = 0.0
    for state in product((False, True), repeat=len(net.causes)):
        weight = prod(p if there else 1.0 - p for p, there in zip(net.priors, state, strict=True))
        spared = {
            name: (1.0 - node.leak[0]) * prod(1.0 - q[0] for index, q in node.links.items() if state[index])
            for name, node in net.defects.items()
        }
        for name, spare in spared.items():
            seen[name] += weight * (1.0 - spare)
        any_seen += weight * (1.0 - prod(spared.values()))
    return seen, any_seen


@given(nets())
@settings(max_examples=60, deadline=None)
def test_as_every_state_counted_out(net: Network) -> None:
    found = forecast(net, priors_of(net))
    seen, spoilt = counted_out(net)
    assert found.defects == pytest.approx(seen, abs=1e-12)
    assert found.spoilt == pytest.approx(spoilt, abs=1e-12)


@given(nets())
@settings(max_examples=30, deadline=None)
def test_what_is_due_to_a_cause_is_gone_without_it(net: Network) -> None:
    chances = priors_of(net)
    found = forecast(net, chances)
    for cause in chances:
        without = forecast(net, chances | {cause: 0.0})
        assert found.due[cause] == pytest.approx(found.spoilt - without.spoilt, abs=1e-9)


@given(nets(), st.floats(0.001, 0.3))
@settings(max_examples=30, deadline=None)
def test_made_smaller_until_so_many_are_spoilt(net: Network, wanted: float) -> None:
    chances = priors_of(net)
    measure = measure_for(net, chances, wanted)
    scaled = forecast(net, {cause: measure * chance for cause, chance in chances.items()}, measure).spoilt
    if forecast(net, chances).spoilt <= wanted:
        assert measure == 1.0
    else:
        assert scaled == pytest.approx(wanted, abs=1e-9)


def test_the_likeliest_cause_first() -> None:
    net = Network.of(
        {"often": 0.5, "rare": 0.1, "idle": 0.4}, {"pale": (0.0, {"often": 0.5, "rare": 0.9, "idle": 0.0})}
    )
    assert behind(net, "pale", priors_of(net)) == [("often", 0.25), ("rare", pytest.approx(0.09))]
