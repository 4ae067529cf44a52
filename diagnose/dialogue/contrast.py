"""Why this cause and not that one: what speaks for the one rather than the other, and which check parts them."""

from dataclasses import dataclass

from diagnose.dialogue.consultation import Consultation
from diagnose.reasoning.outlook import likelihoods, told
from diagnose.reasoning.reasons import Reason, decibans, heaviest_first, reasons

FAINTEST = 0.5  # decibans between two causes that are worth telling
MOST_REASONS, MOST_CHECKS = 6, 3
LEAST_TOLD = 0.05  # nats, of the 0.69 that part two causes for sure


@dataclass(frozen=True, slots=True, kw_only=True)
class Contrast:
    """Two causes by their ids. ``usual``: by how much the one turns up more often than the other in such jobs, in
    decibans; ``reasons``: each finding with how much more it speaks for the one than for the other; ``checks``: those
    that are not answered yet and would part the two, the best first."""

    one: str
    other: str
    usual: float
    reasons: tuple[Reason, ...]
    checks: tuple[str, ...]


def contrast(consultation: Consultation, one: str, other: str) -> Contrast:
    """The one cause held against the other."""
    net, beliefs = consultation.net, consultation.beliefs
    first, second = net.index[one], net.index[other]
    found = reasons(net, consultation.evidence, beliefs, [first, second])
    weights = {reason.finding: reason.weight for reason in found[first]}
    for reason in found[second]:
        weights[reason.finding] = weights.get(reason.finding, 0.0) - reason.weight
    telling = [Reason(finding, weight) for finding, weight in weights.items() if abs(weight) >= FAINTEST]
    return Contrast(
        one=one,
        other=other,
        usual=decibans(net.priors[first]) - decibans(net.priors[second]),
        reasons=tuple(heaviest_first(telling)[:MOST_REASONS]),
        checks=tuple(_parting(consultation, first, second)),
    )


def _parting(consultation: Consultation, first: int, second: int) -> list[str]:
    """The checks left that tell most of two causes that are as likely as each other."""
    tells = []
    for check, node in consultation.net.checks.items():
        if check not in consultation.desk.closed and (first in node.links or second in node.links):
            rows = likelihoods(node.told(), [first, second], consultation.beliefs)
            told_apart = told([row[:2] for row in rows], (0.5, 0.5))
            rates = consultation.shop.rates
            minutes = rates.worth(consultation.knowledge.checks[check]) + rates.asking
            if told_apart >= LEAST_TOLD:
                tells.append((-round(told_apart / minutes, 9), check))
    return [check for _, check in sorted(tells)[:MOST_CHECKS]]
