"""What the dialogue costs where not all is as it says: answers that are wrong, and rules whose numbers are off.

One cause is behind each press (see ``cases``), drawn from the rules as they ship; only presslore's advice is followed.
A wrong answer is any other outcome of the check, each look by itself, the second look at the same check included.
Numbers that are off are those that the advice goes by, every one of them up or down as chance has it, others on each
press.
"""

from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import repeat
from multiprocessing import get_context
from random import Random
from statistics import fmean
from typing import NamedTuple

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.session import Session
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.network import Network, network
from diagnose.reasoning.shaking import shaken
from tests.bench.cases import Outcome, followed, opened, shipped
from tests.bench.rows import Row
from tests.bench.workshop import spoiled_by_one

SIZE = 300  # presses of each kind
LEAST_CURED = 0.97
OFF = 1.0  # in log-odds: 70 % becomes 46 or 86 %


class Kind(NamedTuple):
    """The share of answers that are ``wrong``; which numbers are off by one in log-odds, of ``none``, ``rules`` (how
    surely a cause brings a defect on) and ``all``; the ``limit`` of minutes to a good print, 0 where there is none."""

    wrong: float
    off: str
    limit: float


KINDS = {
    "every answer right": Kind(0.0, "none", 30.5),
    "one answer in ten wrong": Kind(0.1, "none", 34.0),
    "two answers in ten wrong": Kind(0.2, "none", 37.0),
    "every rule off by one in log-odds": Kind(0.0, "rules", 32.0),
    "every number off by one in log-odds": Kind(0.0, "all", 0.0),
}


@dataclass(frozen=True)
class Misled(Consultation):
    """A consultation by rules whose numbers are off: a seed, and which of them (see ``Kind``)."""

    off: tuple[int, str]

    def then(self, session: Session) -> "Misled":
        return Misled(self.knowledge, self.shop, session, self.off)

    @cached_property
    def net(self) -> Network:
        seed, which = self.off
        net = network(self.knowledge, self.job, self.known)
        other = shaken(net, Random(f"off {seed}"), OFF)
        return other if which == "all" else replace(net, defects=other.defects)


def outcome(number: int, kind: Kind) -> Outcome:
    """What following the advice comes to on one press."""
    shop = Shop()
    press = spoiled_by_one(number, shipped(), shop.rates)
    press.wrong = kind.wrong
    start = opened(press, shop)
    advised = Misled(start.knowledge, shop, start.session, (number, kind.off)) if kind.off != "none" else start
    checks, fixes = followed(press, advised)
    return Outcome(press.minutes, press.money, not press.helped, checks, fixes)


def run(size: int = SIZE, kinds: Sequence[str] = tuple(KINDS)) -> list[Row]:
    """Minutes to a good print and the share cured without help. Takes some minutes on two cores."""
    rows: list[Row] = []
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        for name in kinds:
            each = list(pool.map(outcome, range(size), repeat(KINDS[name]), chunksize=4))
            rows += _rows(name, each, KINDS[name].limit)
    return rows


def _rows(name: str, each: Sequence[Outcome], limit: float) -> list[Row]:
    minutes, _, cured, checks, fixes = (fmean(values) for values in zip(*each, strict=True))
    measured = f"{minutes:.1f} min, {checks:.1f} checks, {fixes:.1f} fixes"
    if not limit:
        return [Row(name=name, measured=f"{measured}, {cured:.1%} cured")]
    return [
        Row(name=name, measured=measured, limit=f"at most {limit:g} min", ok=minutes <= limit),
        Row(
            name=f"{name}: cured without help",
            measured=f"{cured:.1%}",
            limit=f"at least {LEAST_CURED:.0%}",
            ok=cured >= LEAST_CURED,
        ),
    ]
