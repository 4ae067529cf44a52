"""Which causes were behind what was seen, looked back on with all that a case taught, its cure included.

While a case goes on, only what is still seen counts (``Beliefs.behind``). Once it is over nothing may be left, and the
question is another: did this cause help to bring on any of the sights, put right since or not? That is the chance that
it was there, less the chance that it was there and idle; the latter is the evidence summed anew with the cause's
strengths taken away.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import exp

from diagnose.reasoning.beliefs import arithmetic, believe, division
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.factors import Factors, Loud, factors
from diagnose.reasoning.network import Network
from diagnose.reasoning.pulls import Pull
from diagnose.reasoning.sweep import plan, sweep
from diagnose.reasoning.swept import Swept

LEAST = 0.02  # chance of having been there, below which a cause is not looked into


@dataclass(frozen=True, slots=True)
class Blame:
    """By cause id, the chance that it was behind what was seen, likeliest first; ``unknown``: that something was
    which the rules do not know."""

    causes: Mapping[str, float]
    unknown: float


def blame(net: Network, evidence: Evidence) -> Blame:
    """The blame for what was seen. Raises KeyError or ValueError for what the network does not know."""
    given = factors(net, evidence)
    sights = given.loud[: len(evidence.seen)]
    touching = {cause for loud in sights for cause in loud.pulls}
    if not division(given).exact:  # too wide to be exact: whoever was there is behind it
        present = believe(net, evidence).present
        return Blame(_ordered(net, {cause: present[cause] for cause in touching}), 0.0)
    whole = _swept(given)
    found = {}
    for cause in touching:
        if whole.present[cause] >= LEAST:
            idle = _swept(_without(given, len(sights), cause))
            share = exp(min(0.0, idle.log_evidence - whole.log_evidence))
            found[cause] = max(0.0, whole.present[cause] - idle.present[cause] * share)
    known = _swept(_unleaking(given, len(sights)))
    return Blame(_ordered(net, found), 1.0 - exp(min(0.0, known.log_evidence - whole.log_evidence)))


def _swept(given: Factors) -> Swept:
    steps, width = plan(given, given.loud)
    return sweep(given, steps, arithmetic(width))


def _without(given: Factors, sights: int, cause: int) -> Factors:
    """The factors where this cause, if it is there, explains none of the sights."""

    def idle(loud: Loud) -> Loud:
        if cause not in loud.pulls:
            return Loud(loud.id, loud.leak, loud.pulls, loud.lasting)
        quiet = {death: Pull(0.0, pull.c) for death, pull in loud.pulls[cause].items()}
        return Loud(loud.id, loud.leak, {**loud.pulls, cause: quiet}, loud.lasting)

    return _with(given, [idle(loud) for loud in given.loud[:sights]])


def _unleaking(given: Factors, sights: int) -> Factors:
    """The factors where nothing unknown explains any of the sights."""
    return _with(
        given,
        [Loud(loud.id, Pull(0.0, loud.leak.c), loud.pulls, loud.lasting) for loud in given.loud[:sights]],
    )


def _with(given: Factors, sights: Sequence[Loud]) -> Factors:
    return replace(given, loud=[*sights, *given.loud[len(sights) :]])


def _ordered(net: Network, found: Mapping[int, float]) -> dict[str, float]:
    by_name = ((net.causes[cause], chance) for cause, chance in found.items())
    return dict(sorted(by_name, key=lambda pair: (-round(pair[1], 12), pair[0])))
