"""Why a cause is believed: the weight of each finding for and against it, what would change the answer."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import exp, log10
from typing import TypeAlias

from diagnose.reasoning.beliefs import Beliefs, beliefs_by, believe, division
from diagnose.reasoning.evidence import LATELY, NAMED, THEN, Evidence
from diagnose.reasoning.factors import factors
from diagnose.reasoning.network import Network

HEAVIEST = 60.0  # decibans; odds of a million to one are as good as sure
LIGHTEST = 0.05
MOST_WEIGHED = 1 << 28  # weights moved for all reasons together, had each to be reckoned with all that is seen
MOST_TURNED = 1 << 26  # weights moved for all that would change the answer
MOST_BOUNDED = 1 << 25  # either where it is bounded
MOST_LINKED = 1 << 20  # pairs of a cause and a finding looked up for all reasons together
SURE = 1e-9


@dataclass(frozen=True, slots=True)
class Finding:
    """One piece of evidence: ``kind`` is ``seen``, ``not-seen``, ``answer`` or ``tried``; ``detail`` is the
    outcome of a check, or what a fix changed. ``press`` is something known of the press beforehand, ``id`` then the
    cause and ``detail`` what was found; ``reading`` is a measured figure, ``id`` then names the measure; ``named`` is a
    cause that the person named, ``lately`` one that was found on this press lately; ``then`` is what was so at the last
    good piece, ``id`` says of what."""

    kind: str
    id: str
    detail: str = ""


Without: TypeAlias = tuple[Finding, Evidence]


@dataclass(frozen=True, slots=True)
class Reason:
    """A finding and its weight of evidence for one cause in decibans: 10 log10 of the factor by which it
    multiplies the cause's odds, given all the other findings. Above zero it speaks for the cause."""

    finding: Finding
    weight: float


@dataclass(frozen=True, slots=True)
class Turn:
    """An outcome of a check that would put another cause first: how likely it is, and how likely that cause
    would then be."""

    check: str
    outcome: str
    chance: float
    leads: int
    probability: float


def findings(evidence: Evidence) -> Iterator[tuple[Finding, Evidence]]:
    """Each finding, with the evidence as it would be without it."""
    for defect in evidence.seen:
        yield Finding("seen", defect), replace(evidence, seen=_but(evidence.seen, defect))
    for defect in evidence.not_seen:
        yield Finding("not-seen", defect), replace(evidence, not_seen=_but(evidence.not_seen, defect))
    for check, (outcome, _) in evidence.answers.items():
        answers = {other: answer for other, answer in evidence.answers.items() if other != check}
        yield Finding("answer", check, outcome), replace(evidence, answers=answers)
    for told in (each for each in evidence.weighed if each.measure in (NAMED, LATELY)):
        left = tuple(each for each in evidence.weighed if (each.measure, each.cause) != (told.measure, told.cause))
        yield Finding(told.measure, told.cause), replace(evidence, weighed=left)
    for measure in dict.fromkeys(each.measure for each in evidence.weighed if each.measure not in (NAMED, LATELY)):
        left = tuple(weighed for weighed in evidence.weighed if weighed.measure != measure)
        kind = "then" if measure.startswith(THEN) else "reading"
        yield Finding(kind, measure.removeprefix(THEN)), replace(evidence, weighed=left)
    for number, tried in enumerate(evidence.tried):
        yield Finding("tried", tried.fix, tried.change), _untried(evidence, number)


def _but(ids: tuple[str, ...], gone: str) -> tuple[str, ...]:
    return tuple(one for one in ids if one != gone)


def _untried(evidence: Evidence, number: int) -> Evidence:
    """The evidence without one fix: what was answered after it moves one period forward."""
    answers = {
        check: (outcome, period - 1 if period > number else period)
        for check, (outcome, period) in evidence.answers.items()
    }
    weighed = tuple(replace(one, period=one.period - 1) if one.period > number else one for one in evidence.weighed)
    return replace(
        evidence, answers=answers, weighed=weighed, tried=evidence.tried[:number] + evidence.tried[number + 1 :]
    )


def reasons(net: Network, evidence: Evidence, beliefs: Beliefs, causes: Sequence[int]) -> dict[int, list[Reason]]:
    """For each of the causes, every finding that moves it, the heaviest first. Where that is too much work, the weights
    are estimates, and where the findings are very many, only those that bear on the causes themselves are weighed."""
    result: dict[int, list[Reason]] = {cause: [] for cause in causes}
    if not causes:
        return result
    told, given = list(findings(evidence)), factors(net, evidence)
    told = _nearest(net, told, causes, MOST_LINKED // (_links(net, evidence) or 1))
    times = len(told) or 1
    parts = division(given, most=MOST_WEIGHED // times, most_bounded=MOST_BOUNDED // times)
    if not (parts.exact and beliefs.exact):
        beliefs = beliefs_by(given, parts, causes)
    for finding, without in told:
        left = factors(net, without)
        other = beliefs_by(left, parts.of(left.loud), causes)
        for cause in causes:
            weight = decibans(beliefs.alive[cause]) - decibans(other.alive[cause])
            weight = max(-HEAVIEST, min(HEAVIEST, weight))
            if abs(weight) >= LIGHTEST:
                result[cause].append(Reason(finding, weight))
    return {cause: heaviest_first(own) for cause, own in result.items()}


def _links(net: Network, evidence: Evidence) -> int:
    """How many pairs of a cause and a finding the evidence speaks of."""
    defects = [net.defects[defect] for defect in (*evidence.seen, *evidence.not_seen)]
    return sum([len(node.links) for node in (*defects, *(net.checks[check] for check in evidence.answers))])


def _nearest(net: Network, told: list[Without], causes: Sequence[int], most: int) -> list[Without]:
    """At most so many of the findings: those that bear most surely on any of the causes."""
    if len(told) <= most:
        return told

    def bearing(each: Without) -> float:
        nodes = net.checks if each[0].kind == "answer" else net.defects
        links = nodes[each[0].id].links if each[0].id in nodes else {}
        return max([sum(links.get(cause, (0.0,))) for cause in causes])

    return sorted(told, key=lambda each: (-bearing(each), each[0].kind, each[0].id))[: max(1, most)]


def heaviest_first(found: Iterable[Reason]) -> list[Reason]:
    """The reasons in the order in which they are told."""
    return sorted(found, key=lambda r: (-round(abs(r.weight), 9), r.finding.kind, r.finding.id))


def decibans(probability: float) -> float:
    """The odds of a probability as 10 log10, kept within what can be said."""
    p = min(1.0 - SURE, max(SURE, probability))
    return 10.0 * log10(p / (1.0 - p))


def turns(net: Network, evidence: Evidence, beliefs: Beliefs, checks: Sequence[str]) -> list[Turn]:
    """Which outcomes of these checks would put another cause first than leads now."""
    leader = _leader(beliefs)
    asked = [(check, outcome) for check in checks for outcome in net.checks[check].outcomes]
    times = len(asked) or 1
    found = []
    for check, outcome in asked:
        after = evidence.with_answer(check, outcome)
        then = believe(net, after, most=MOST_TURNED // times, most_bounded=MOST_BOUNDED // times)
        first = _leader(then)
        if first != leader:
            chance = exp(min(0.0, then.log_evidence - beliefs.log_evidence))
            found.append(Turn(check, outcome, chance, first, then.alive[first]))
    return sorted(found, key=lambda t: (-round(t.chance, 9), t.check, t.outcome))


def _leader(beliefs: Beliefs) -> int:
    return max(range(len(beliefs.behind)), key=lambda i: (round(beliefs.behind[i], 9), -i))
