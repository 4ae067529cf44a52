"""From beliefs to the next step: which causes are worth planning for, what may be done and asked, at what price."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from diagnose.knowledge.model import Item, Knowledge
from diagnose.knowledge.shop import Rates
from diagnose.knowledge.trial import on_trial
from diagnose.reasoning.beliefs import Beliefs
from diagnose.reasoning.doubt import second_look
from diagnose.reasoning.estimate import finding_out, questions_left
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import Network
from diagnose.reasoning.outlook import at_work, firsts, likelihoods, told
from diagnose.reasoning.planner import Option, options
from diagnose.reasoning.trouble import Action, PlannedQuestion, Trouble, Weights

HYPOTHESES = 16  # causes planned for at a time; the rest counts as unknown until these are dealt with
COVERED = 0.97  # share of the belief that the hypotheses need not exceed
TWO_FIXES_FOR = 8  # the likeliest hypotheses keep two fixes, by chance of cure over price; the others one
QUESTIONS = 5  # questions kept by what they tell, and as many by what they tell for their price
CANDIDATES = 3  # actions and questions that are rolled out
NOT_FREE = 1e-6  # in the shop's money: the least that a step costs, so that gains can be told by their price
LEVEL = 10  # decimals to which two steps are held against each other: what differs by less goes by its id
FLOOR = 0.1  # branches of the rollout with less mass than this are not followed further


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """What planning needs besides beliefs: the knowledge, the prices, the item if known, and the checks that
    were answered already or that the person cannot tell, with the fixes that cannot be done. ``doubted``: checks whose
    answer may well be wrong, with that answer; a second look at them may be proposed."""

    knowledge: Knowledge
    rates: Rates
    item: Item | None = None
    closed: Collection[str] = ()
    doubted: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """The next step: ``kind`` is ``check``, ``fix`` or ``call``; ``cost``, ``minutes`` and ``waits`` are what a
    good print is expected to take from here on, the waiting besides the minutes of hands; ``questions``: how many are
    expected to be asked, the next included; ``options`` are all candidates, cheapest first."""

    kind: str
    id: str
    cost: float
    minutes: float
    questions: float
    waits: float
    options: tuple[Option, ...]


def advise(net: Network, beliefs: Beliefs, evidence: Evidence, desk: Desk) -> Advice:
    """The step with the least expected cost to a good print."""
    trouble = trouble_of(net, beliefs, evidence, desk)
    found = options(trouble, widest=CANDIDATES, floor=FLOOR)
    best, rough = found[0], finding_out(trouble)
    expected = rough if best.step is not None and rough.cost < best.cost else best
    step_id = best.step.id if best.step else ""
    return Advice(
        kind=best.kind,
        id=step_id,
        cost=expected.cost,
        minutes=expected.minutes,
        questions=questions_left(trouble.weights),
        waits=expected.waits,
        options=tuple(found),
    )


def trouble_of(net: Network, beliefs: Beliefs, evidence: Evidence, desk: Desk) -> Trouble:
    """The planner's problem. The last weight stands for something unknown, or too unlikely to plan for yet."""
    causes, weights = hypotheses(beliefs)
    return Trouble(
        weights=weights,
        actions=tuple(_actions(net, evidence, desk, causes, weights)),
        questions=tuple(_questions(net, beliefs, desk, causes, weights)),
        call=desk.rates.call(),
        call_minutes=desk.rates.help_minutes,
    )


def hypotheses(beliefs: Beliefs) -> tuple[list[int], Weights]:
    """The likeliest causes, each weighted by the chance that it is the first of them at work: that one is to be found
    next. The last weight stands for something unknown."""
    total = at_work(beliefs)
    ranked = sorted(range(len(beliefs.behind)), key=lambda i: (-round(beliefs.behind[i], LEVEL), i))
    kept: list[int] = []
    covered = 0.0
    for cause in ranked[:HYPOTHESES]:
        if beliefs.behind[cause] <= 0.0 or covered > COVERED * total:
            break
        kept.append(cause)
        covered += beliefs.behind[cause]
    weights = firsts([beliefs.behind[cause] for cause in kept], total - covered)
    return kept, (*weights, max(0.0, 1.0 - sum(weights)))


def _actions(net: Network, evidence: Evidence, desk: Desk, hypotheses: Sequence[int], weights: Weights) -> list[Action]:
    """The fixes worth planning with. One on trial counts for a cause only where no settled one is left for it: how good
    it is, it alone says."""
    column = {cause: h for h, cause in enumerate(hypotheses)}
    left = _left_to_do(net, evidence, desk)
    settled = {cause for fix, cures in left.items() if not on_trial(desk.knowledge.fixes[fix]) for cause in cures}
    all_actions = []
    for fix, cures in left.items():
        waits = settled if on_trial(desk.knowledge.fixes[fix]) else frozenset()
        aimed = [(column[cause], cure) for cause, cure in cures.items() if cause in column and cause not in waits]
        if aimed:
            all_actions.append(_action(desk, fix, tuple(sorted(aimed))))
    kept: dict[str, Action] = {}
    for h, weight in enumerate(weights[:-1]):
        ratios = [(-round(weight * c / a.cost, LEVEL), a.id, a) for a in all_actions for own, c in a.cures if own == h]
        kept |= {action.id: action for _, _, action in sorted(ratios)[: 2 if h < TWO_FIXES_FOR else 1]}
    return sorted(kept.values(), key=lambda a: a.id)


def _left_to_do(net: Network, evidence: Evidence, desk: Desk) -> dict[str, dict[int, float]]:
    """The fixes that were not tried yet and can be done, each with what it cures."""
    gone = {*(t.fix for t in evidence.tried), *desk.closed}
    cures = {fix: {cause: cure for cause, cure in every.items() if cure > 0.0} for fix, every in net.cures.items()}
    return {fix: cured for fix, cured in cures.items() if cured and fix not in gone}


def _action(desk: Desk, fix_id: str, cures: tuple[tuple[int, float], ...]) -> Action:
    fix = desk.knowledge.fixes[fix_id]
    cost = desk.rates.price(fix.minutes, fix.spends, desk.item, fix.waits) + desk.rates.test_press(desk.item)
    minutes = fix.minutes + desk.rates.test_minutes(desk.item)
    return Action(fix_id, max(NOT_FREE, cost), cures, minutes, fix.waits.time)


def _questions(
    net: Network, beliefs: Beliefs, desk: Desk, hypotheses: Sequence[int], weights: Weights
) -> list[PlannedQuestion]:
    scored = []
    for check_id in _left_to_ask(net, desk, hypotheses):
        node = net.checks[check_id]
        if check_id in desk.doubted:
            rows = second_look(node, desk.doubted[check_id], hypotheses, beliefs)
        else:
            rows = likelihoods(node.told(), hypotheses, beliefs)
        check = desk.knowledge.checks[check_id]
        cost = max(NOT_FREE, desk.rates.check_price(check, desk.item))
        minutes = check.minutes + desk.rates.asking
        scored.append((told(rows, weights), PlannedQuestion(check_id, cost, rows, minutes, check.waits.time)))
    by_telling = sorted(scored, key=lambda s: (-round(s[0], LEVEL), s[1].id))[:QUESTIONS]
    by_price = sorted(scored, key=lambda s: (-round(s[0] / s[1].cost, LEVEL), s[1].id))[:QUESTIONS]
    kept = {question.id: question for _, question in (*by_telling, *by_price)}
    return sorted(kept.values(), key=lambda q: q.id)


def _left_to_ask(net: Network, desk: Desk, hypotheses: Sequence[int]) -> list[str]:
    """The checks that were not answered yet, or not surely, and speak of a hypothesis. One on trial waits while a
    settled one is left that speaks of one of the same: what it tells, it alone says."""
    spoken = {check: {h for h in hypotheses if h in node.links} for check, node in net.checks.items()}
    left = {c: told for c, told in spoken.items() if told and (c not in desk.closed or c in desk.doubted)}
    trials = {check for check in left if on_trial(desk.knowledge.checks[check])}
    settled = {h for check, told in left.items() if check not in trials for h in told}
    return [check for check, told in left.items() if check not in trials or not told & settled]
