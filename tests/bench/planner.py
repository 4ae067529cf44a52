"""How near the planner comes to the best plan there is: random troubles, each solved exhaustively as well."""

from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from itertools import repeat
from multiprocessing import get_context

from diagnose.reasoning.planner import Step, acting_only, options
from diagnose.reasoning.planning import CANDIDATES, FLOOR
from diagnose.reasoning.trouble import Trouble
from tests.bench.rows import Row
from tests.reasoning.planning.exhaustive import optimum
from tests.reasoning.planning.instances import FEW_QUESTIONS, MANY_QUESTIONS, instance
from tests.reasoning.planning.policy import asking_rule, cost, rollout

SIZE = 150  # troubles in each family
MEAN, WORST = 0.001, 0.02  # excess over the optimum that the planner may have
FAMILIES = {"few questions": FEW_QUESTIONS, "many questions": MANY_QUESTIONS}


def as_tuned(trouble: Trouble) -> Step | None:
    """The planner as it runs in a session: few candidates, thin branches left."""
    return options(trouble, widest=CANDIDATES, floor=FLOOR)[0].step


def excesses(seed: int, family: tuple[int, int, int]) -> list[float]:
    """By how much each way of planning costs more than the optimum, as a share of it."""
    trouble = instance(seed, *family)
    best = optimum(trouble)
    costs = [
        cost(trouble, rollout),
        cost(trouble, as_tuned),
        cost(trouble, asking_rule),
        acting_only(trouble.weights, trouble.actions, trouble.call),
    ]
    return [found / best - 1.0 for found in costs]


def run(size: int = SIZE) -> list[Row]:
    """The mean and the worst excess over the optimum in each family. Takes half a minute on two cores."""
    rows: list[Row] = []
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        for name, family in FAMILIES.items():
            found = list(pool.map(excesses, range(size), repeat(family), chunksize=5))
            rolled, tuned, rule, acting = zip(*found, strict=True)
            rows += _judged(f"planner, {name}, every candidate", rolled)
            rows += _judged(f"planner, {name}, as tuned for a session", tuned)
            rows += _compared(f"asking rule alone, {name}", rule)
            rows += _compared(f"fixes by chance over price, no questions, {name}", acting)
    return rows


def _judged(name: str, excess: Sequence[float]) -> list[Row]:
    return [
        _row(f"{name}: mean over the optimum", sum(excess) / len(excess), MEAN),
        _row(f"{name}: worst over the optimum", max(excess), WORST),
    ]


def _compared(name: str, excess: Sequence[float]) -> list[Row]:
    return [
        _row(f"{name}: mean over the optimum", sum(excess) / len(excess), None),
        _row(f"{name}: worst over the optimum", max(excess), None),
    ]


def _row(name: str, excess: float, limit: float | None) -> Row:
    if limit is None:
        return Row(name=name, measured=f"{excess:.2%}")
    return Row(name=name, measured=f"{excess:.2%}", limit=f"at most {limit:.1%}", ok=excess <= limit)
