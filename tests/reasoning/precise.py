"""The signed sum over subsets of the findings seen, in any arithmetic.

The identity is D. Heckerman's ("A tractable inference algorithm for diagnosing multiple diseases", 1989):
P(F+, F-) = sum over S in F+ of (-1)^|S| prod_{j in S or F-} (1 - leak_j) prod_i [(1 - p_i) + p_i prod_j (1 - q_ij)].
"""

from collections.abc import Callable
from typing import Any

import mpmath

from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import Network

DIGITS = 50


def precisely(net: Network, evidence: Evidence) -> tuple[list[float], float]:
    """Posteriors and the probability of the evidence, worked out with 50 digits and then rounded."""
    with mpmath.workdps(DIGITS):
        posteriors, chance = signed_sum(net, evidence, mpmath.mpf)
        return [float(p) for p in posteriors], float(chance)


def signed_sum(net: Network, evidence: Evidence, number: Callable[[float], Any]) -> tuple[list[Any], Any]:
    """Posteriors and the probability of the evidence by the signed sum. ``number`` sets the arithmetic."""
    quiet, signs = _by_subset(net, evidence, number)
    one = number(1.0)
    terms = list(signs)
    silent = []
    for cause, prior in enumerate(net.priors):
        p = number(prior)
        silent.append([p * x for x in quiet[cause]])
        terms = [t * ((one - p) + s) for t, s in zip(terms, silent[cause], strict=True)]
    chance = sum(terms, number(0.0))
    posteriors = []
    for cause, prior in enumerate(net.priors):
        absent = one - number(prior)
        with_cause = sum((t * s / (absent + s) for t, s in zip(terms, silent[cause], strict=True)), number(0.0))
        posteriors.append(with_cause / chance)
    return posteriors, chance


def _by_subset(net: Network, evidence: Evidence, number: Callable[[float], Any]) -> tuple[list[list[Any]], list[Any]]:
    """For each cause, and for sign and leaks together: the factor of every subset, by its bits."""
    one = number(1.0)
    signs = [one]
    quiet = [[one] for _ in net.causes]
    for d in evidence.not_seen:
        node = net.defects[d]
        signs = [(one - number(node.leak[0])) * x for x in signs]
        for i, link in node.links.items():
            quiet[i] = [(one - number(link[0])) * x for x in quiet[i]]
    for d in evidence.seen:
        node = net.defects[d]
        signs += [-(one - number(node.leak[0])) * x for x in signs]
        for i, row in enumerate(quiet):
            factor = one - number(node.links[i][0]) if i in node.links else one
            row += [factor * x for x in row]
    return quiet, signs
