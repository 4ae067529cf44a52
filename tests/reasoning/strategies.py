"""Hypothesis strategies: small networks of every kind, extreme ones too, and evidence on them."""

from hypothesis import strategies as st

from diagnose.reasoning.evidence import BETTER, SAME, Evidence, Tried
from diagnose.reasoning.network import FindingNode, Network

chances = st.one_of(st.sampled_from((0.0, 1.0, 1e-6, 0.5)), st.floats(0.0, 1.0, allow_subnormal=False))
inner = st.floats(0.001, 0.999)  # neither impossible nor sure


@st.composite
def networks(draw: st.DrawFn, numbers: st.SearchStrategy[float] = chances) -> Network:
    """Up to five causes, four defects, two checks of three outcomes, two fixes."""
    causes = [f"c{i}" for i in range(draw(st.integers(1, 5)))]
    some = st.sets(st.integers(0, len(causes) - 1))
    defects = {}
    for j in range(draw(st.integers(1, 4))):
        defects[f"d{j}"] = FindingNode(f"d{j}", (draw(numbers),), {i: (draw(numbers),) for i in sorted(draw(some))})
    checks = {}
    for k in range(draw(st.integers(0, 2))):
        links = {i: _two(draw, numbers) for i in sorted(draw(some))}
        checks[f"k{k}"] = FindingNode(f"k{k}", _two(draw, numbers), links, ("o0", "o1", "o2"))
    cures = {f"f{n}": {i: draw(numbers) for i in sorted(draw(some))} for n in range(draw(st.integers(0, 2)))}
    priors = tuple(draw(numbers) for _ in causes)
    return Network(tuple(causes), priors, defects, checks, cures, {c: i for i, c in enumerate(causes)})


def _two(draw: st.DrawFn, numbers: st.SearchStrategy[float]) -> tuple[float, float]:
    first = draw(numbers)
    return first, (1.0 - first) * draw(numbers)


@st.composite
def evidence(draw: st.DrawFn, net: Network) -> Evidence:
    """Any evidence on the network, contradictory evidence too."""
    told = draw(st.lists(st.sampled_from(sorted(net.defects)), unique=True))
    at = draw(st.integers(0, len(told)))
    seen, not_seen = tuple(told[:at]), tuple(told[at:])
    fixes = draw(st.lists(st.sampled_from(sorted(net.cures)), max_size=2)) if net.cures else []
    gone = st.lists(st.sampled_from(seen), unique=True, max_size=1) if seen else st.just([])
    tried = tuple(Tried(f, draw(st.sampled_from((BETTER, SAME, ""))), tuple(draw(gone))) for f in fixes)
    answers = {}
    for check in draw(st.lists(st.sampled_from(sorted(net.checks)), unique=True)) if net.checks else []:
        outcome = draw(st.sampled_from(net.checks[check].outcomes))
        answers[check] = (outcome, draw(st.integers(0, len(tried))))
    return Evidence(seen, not_seen, answers, tried)


@st.composite
def cases(draw: st.DrawFn, numbers: st.SearchStrategy[float] = chances) -> tuple[Network, Evidence]:
    net = draw(networks(numbers))
    return net, draw(evidence(net))
