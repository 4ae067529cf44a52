"""Which answers do not go with all the rest: how likely each is wrong, and what a second look at it would tell."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import exp

from diagnose.reasoning.beliefs import Beliefs, believe
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import FindingNode, Network, mistaken_each
from diagnose.reasoning.outlook import likelihoods
from diagnose.reasoning.trouble import Weights

BEYOND_DOUBT = 60  # times over: an answer given so often is as good as never wrong
DOUBTFUL = 0.25  # chance of being wrong from which a second look may be proposed
MOST_DOUBTED = 3  # answers that are looked at again in planning


def doubted(net: Network, evidence: Evidence, beliefs: Beliefs) -> Mapping[str, str]:
    """The answers since the last fix that may well be wrong, each check with its outcome, the likeliest wrong first.

    Told twice over, an answer stands."""
    chances = {
        check: mistaken(net, evidence, beliefs, check)
        for check, (_, period) in evidence.answers.items()
        if period == evidence.period and evidence.times(check) == 1 and net.checks[check].wrong
    }
    worst = sorted((-round(chance, 9), check) for check, chance in chances.items() if chance >= DOUBTFUL)
    return {check: evidence.answers[check][0] for _, check in worst[:MOST_DOUBTED]}


def mistaken(net: Network, evidence: Evidence, beliefs: Beliefs, check: str) -> float:
    """How likely the answer to a check is wrong, given all that is known: one less how likely it would be, had it been
    sure to be right."""
    surely = believe(net, replace(evidence, again={**evidence.again, check: BEYOND_DOUBT}))
    share = exp(min(0.0, surely.log_evidence - beliefs.log_evidence))
    return max(0.0, 1.0 - (1.0 - net.checks[check].wrong) * share)


def second_look(node: FindingNode, outcome: str, hypotheses: Sequence[int], beliefs: Beliefs) -> tuple[Weights, ...]:
    """What another look at a check would show, as ``outlook.likelihoods`` has it, where this outcome was told first:
    the two looks go wrong each by itself, at the same thing."""
    first, levels = node.outcomes.index(outcome), len(node.outcomes)
    other = mistaken_each(node.wrong, levels - 1, 1)
    told = [[other if one != there else 1.0 - node.wrong for one in range(levels)] for there in range(levels)]
    there = likelihoods(node.told(BEYOND_DOUBT), hypotheses, beliefs)
    rows = [[chance * told[at][first] for chance in row] for at, row in enumerate(there)]
    totals = [sum(column) for column in zip(*rows, strict=True)]
    return tuple(
        tuple(sum([row[h] * told[at][second] for at, row in enumerate(rows)]) / total for h, total in enumerate(totals))
        for second in range(levels)
    )
