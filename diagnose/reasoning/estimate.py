"""What a good print is expected to take from here on, where the doubt is too wide for the rollout to follow.

The rollout charges thin branches with acting only, which is far too much where many causes are still open and
questions are cheap. This estimate takes the doubt away at the going rate instead, and then puts right just the
cause that is left. What is told is the lesser of the two.
"""

from collections.abc import Sequence
from math import inf, log

from diagnose.reasoning.outlook import told
from diagnose.reasoning.planner import Spending
from diagnose.reasoning.trouble import PlannedQuestion, Trouble, Weights

LEAST_TOLD = 1e-6  # nats; a question that tells less has no rate


def finding_out(trouble: Trouble) -> Spending:
    """Doubt at the going rate, then the cheapest cure of each hypothesis, tried until it works. Infinite where
    no question tells anything."""
    of_doubt = going_rate(trouble.questions, trouble.weights)
    left = doubt(trouble.weights)
    cures = list(zip(trouble.weights, cheapest_cures(trouble), strict=True))
    cost, minutes, waits = (each * left + sum([w * cure[i] for w, cure in cures]) for i, each in enumerate(of_doubt))
    return Spending(cost, minutes, waits)


def doubt(weights: Weights) -> float:
    """How far it is open what is behind it, in nats; 0 where one thing is certain. Weights sum to 1."""
    return sum([w * log(1.0 / w) for w in weights if w > 0.0])


def questions_left(weights: Weights) -> float:
    """How many questions a dialogue still takes, the next one included: as if each left half of what may be behind it.

    Of the counts that were held against played dialogues (what the rollout asks, the doubt over what the best question
    tells, and mixtures) this errs least to one side, and it rises least from one question to the next."""
    return doubt(weights) / log(2.0)


def going_rate(questions: Sequence[PlannedQuestion], weights: Weights) -> tuple[float, float, float]:
    """What a nat of doubt costs to take away, its minutes and its waiting, by the question that tells most for its
    price."""
    telling = [(told(question.likelihoods, weights), question) for question in questions]
    rates = [(q.cost / tells, q.minutes / tells, q.waits / tells) for tells, q in telling if tells > LEAST_TOLD]
    return min(rates, default=(inf, inf, inf))


def cheapest_cures(trouble: Trouble) -> list[tuple[float, float, float]]:
    """For each hypothesis the price, minutes and waiting of its cheapest cure; calling where there is none."""
    best = [(trouble.call, trouble.call_minutes, 0.0)] * len(trouble.weights)
    for action in trouble.actions:
        for h, chance in action.cures:
            best[h] = min(best[h], (action.cost / chance, action.minutes / chance, action.waits / chance))
    return best
