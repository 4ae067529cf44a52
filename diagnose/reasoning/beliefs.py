"""What to believe of every cause, given all evidence: exact up to a stated width, bounded beyond it."""

from collections.abc import Collection
from dataclasses import dataclass
from typing import cast

from diagnose.reasoning import listwise
from diagnose.reasoning.bounds import MOST_LOUD, Division, bound, within
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.factors import Factors, factors
from diagnose.reasoning.network import Network
from diagnose.reasoning.sweep import Arithmetic, crowded, effort, plan, sweep
from diagnose.reasoning.swept import Swept

LISTS_UP_TO = 7  # open findings at a time; beyond that arrays are quicker, and worth importing numpy for
WIDEST = 17  # open findings at a time; beyond that the answer is bounded, not exact
MOST = 1 << 25  # weights moved for one answer, and so a quarter of a GiB; beyond that it is bounded as well
BOUNDED = 13  # open findings at a time while bounding, which takes one more sweep for each finding left out


@dataclass(frozen=True, slots=True, kw_only=True)
class Beliefs:
    """Posteriors by cause index. ``alive``: present and not yet put right; ``present``: as at first sight;
    ``behind``: there, and helping to bring on what is still seen. ``unknown``: expected number of seen
    defects with something unknown behind them. Where ``exact`` is false, these are estimates, and ``bounds``
    holds for each cause the least and the most that ``present`` can be."""

    alive: tuple[float, ...]
    present: tuple[float, ...]
    behind: tuple[float, ...]
    unknown: float
    log_evidence: float
    exact: bool = True
    bounds: tuple[tuple[float, float], ...] = ()


def believe(
    net: Network, evidence: Evidence, widest: int = WIDEST, most: int = MOST, most_bounded: int = MOST
) -> Beliefs:
    """The beliefs given the evidence. Raises KeyError or ValueError for what the network does not know."""
    given = factors(net, evidence)
    return beliefs_by(given, division(given, widest, most, most_bounded))


def division(given: Factors, widest: int = WIDEST, most: int = MOST, most_bounded: int = MOST) -> Division:
    """All loud findings to be swept where the width and the work allow it, else as many as the width and the work of
    bounding allow."""
    if len(given.loud) <= MOST_LOUD and not crowded(given.loud, widest):
        width, work = effort(given, given.loud)
        if width <= widest and work <= most:
            return Division(given.loud)
    return within(given, min(widest, BOUNDED), most_bounded)


def beliefs_by(given: Factors, parts: Division, wanted: Collection[int] | None = None) -> Beliefs:
    """The beliefs with the loud findings divided like that; right for the causes wanted only, where any are."""
    if parts.exact:
        steps, width = plan(given, parts.kept, wanted)
        return _beliefs(sweep(given, steps, arithmetic(width), wanted), ())
    width = effort(given, parts.kept)[0]
    return _beliefs(*bound(given, parts, arithmetic(width), wanted))


def arithmetic(width: int) -> Arithmetic:
    """What sweeps of this width are best done with."""
    if width <= LISTS_UP_TO:
        return cast(Arithmetic, listwise)
    from diagnose.reasoning import arraywise

    return cast(Arithmetic, arraywise)


def _beliefs(swept: Swept, bounds: tuple[tuple[float, float], ...]) -> Beliefs:
    return Beliefs(
        alive=tuple(swept.alive),
        present=tuple(swept.present),
        behind=tuple(swept.behind),
        unknown=swept.unknown,
        log_evidence=swept.log_evidence,
        exact=not bounds,
        bounds=bounds,
    )
