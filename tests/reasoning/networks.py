"""Networks and evidence for the tests: one pinned, the others drawn by a seeded generator."""

from collections.abc import Sequence
from random import Random

from diagnose.reasoning.evidence import Evidence, Tried
from diagnose.reasoning.network import FindingNode, Network

# Three causes, three findings. The posteriors follow from the identity in D. Heckerman, "A tractable inference
# algorithm for diagnosing multiple diseases", 1989; pyAgrum, pgmpy and enumeration agree on them.
PINNED = Network.of(
    {"c1": 0.10, "c2": 0.05, "c3": 0.20},
    {
        "d1": (0.02, {"c1": 0.8, "c2": 0.6}),
        "d2": (0.01, {"c2": 0.7, "c3": 0.3}),
        "d3": (0.05, {"c1": 0.5, "c3": 0.9}),
    },
)
PINNED_EVIDENCE = Evidence(seen=("d1", "d2"), not_seen=("d3",))
PINNED_POSTERIORS = (0.10439365, 0.95640867, 0.04513120)
PINNED_CHANCE = 0.0170380327


def plain(
    random: Random,
    causes: int,
    defects: int,
    each: int,
    priors: tuple[float, float] = (0.01, 0.3),
    leaks: tuple[float, float] = (0.001, 0.05),
    strengths: tuple[float, float] = (0.05, 0.95),
) -> Network:
    """A noisy-OR network in which every defect has ``each`` causes."""
    names = [f"c{i}" for i in range(causes)]
    return Network.of(
        {name: random.uniform(*priors) for name in names},
        {
            f"d{j}": (
                random.uniform(*leaks),
                {name: random.uniform(*strengths) for name in random.sample(names, each)},
            )
            for j in range(defects)
        },
    )


def sights(random: Random, net: Network, seen: int, not_seen: int) -> Evidence:
    """Some defects seen, some not."""
    names = random.sample(sorted(net.defects), seen + not_seen)
    return Evidence(seen=tuple(names[:seen]), not_seen=tuple(names[seen:]))


def with_checks(random: Random, causes: int = 5, defects: int = 4, checks: int = 3, fixes: int = 3) -> Network:
    """A network with checks of two to four outcomes, and fixes that cure some causes."""
    base = plain(random, causes, defects, 3)
    nodes = {}
    for k in range(checks):
        levels = random.randint(1, 3)
        linked = random.sample(range(causes), 3)
        nodes[f"k{k}"] = FindingNode(
            f"k{k}",
            tuple(random.uniform(0.01, 0.1) for _ in range(levels)),
            {i: tuple(random.uniform(0.0, 0.95 / levels) for _ in range(levels)) for i in linked},
            tuple(f"o{level}" for level in range(levels + 1)),
        )
    cures = {f"f{n}": {i: random.uniform(0.3, 1.0) for i in random.sample(range(causes), 2)} for n in range(fixes)}
    return Network(base.causes, base.priors, base.defects, nodes, cures, base.index)


def story(random: Random, net: Network) -> Evidence:
    """A whole case: defects seen and not, fixes that did not cure all, answers given before and after them."""
    defects = random.sample(sorted(net.defects), len(net.defects))
    seen = tuple(defects[: random.randint(1, 3)])
    not_seen = tuple(defects[len(seen) : len(seen) + 1])
    gone = list(seen)
    random.shuffle(gone)
    tried = tuple(
        Tried(
            fix, random.choice(("better", "same", "")), tuple(gone.pop() for _ in range(random.randint(0, 1)) if gone)
        )
        for fix in random.sample(sorted(net.cures), random.randint(0, len(net.cures)))
    )
    asked = random.sample(sorted(net.checks), random.randint(0, len(net.checks)))
    answers = {k: (random.choice(net.checks[k].outcomes), random.randint(0, len(tried))) for k in asked}
    return Evidence(seen, not_seen, answers, tried)


def furthest(one: Sequence[float], other: Sequence[float]) -> float:
    """The greatest difference between two rows of numbers."""
    return max(abs(a - b) for a, b in zip(one, other, strict=True))
