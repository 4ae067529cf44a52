"""The causes that the last cases on a press were put down to, as evidence for the next one.

What was wrong a week ago is often wrong again: a repair does not hold, the rest of a batch lies on the shelf, the same
hands set the press. That wears off: after ``LASTS`` days the batch is used up and the repair has held, and what such
cases teach for good is learnt (``casebook/learning``). A case of today that a cause was surely behind makes it
``LIFT`` times as likely, an older or less sure one less so, all of them together no more than that. Both figures are
judgement, not measured.

Learning moves the same odds. Where a learnt number already lifts a cause over what ships, only what is wanting up to
the full lift is added; what the shop itself knows of the press stands as it is. So no case counts twice.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from diagnose.casebook.case import CURED, Case
from diagnose.casebook.looking_back import looked_back
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import FoundLately
from diagnose.knowledge.learned import unlearned

LASTS = 28  # days
LIFT = 4.0
OF_GOODS = "item"  # the family of causes that lie in the goods themselves
SURELY = 0.5  # how likely a cause must have been behind a case
LEAST = 1.05  # a lift of less is none
MOST_CASES = 12  # the last ones; looking back at a case takes some hundredths of a second


@dataclass(slots=True)
class _Lift:
    weight: float = 0.0
    on: str = ""


def since(at: datetime) -> datetime:
    """From when on cases count at a moment."""
    return at - timedelta(days=LASTS)


def found_lately(cases: Iterable[Case], start: Consultation, at: datetime) -> tuple[FoundLately, ...]:
    """The causes that cured cases on the consultation's press were put down to, by cause. ``cases``: the last first."""
    press = start.press.id if start.press else start.session.press
    own = [case for case in cases if case.ending == CURED and _press_of(case, start) == press][:MOST_CASES]
    lifts: dict[str, _Lift] = {}
    for case in own:
        fresh = 1.0 - max(0.0, (at - case.ended).total_seconds()) / timedelta(days=LASTS).total_seconds()
        for cause, share in _behind(case, start):
            lift = lifts.setdefault(cause, _Lift(on=f"{case.ended:%Y-%m-%d}"))
            lift.weight += share * max(0.0, fresh)
    return tuple(_lifted(lifts, start))


def _press_of(case: Case, start: Consultation) -> str:
    if case.press or case.session.press:
        return case.press or case.session.press
    press = start.then(case.session).press
    return press.id if press else ""


def _behind(case: Case, start: Consultation) -> Iterator[tuple[str, float]]:
    """The causes of a case, but for what lies in other goods: yesterday's cotton says nothing of polyester."""
    found = looked_back(start, case)
    for cause, share in found.causes.items() if found else ():
        of_goods = start.knowledge.causes[cause].family == OF_GOODS
        if share >= SURELY and not (of_goods and case.session.item != start.session.item):
            yield cause, share


def _lifted(lifts: dict[str, _Lift], start: Consultation) -> Iterator[FoundLately]:
    known = {each.cause for each in start.known}
    for cause in sorted(set(lifts) - known):
        times = (1.0 + (LIFT - 1.0) * min(1.0, lifts[cause].weight)) / _learnt(cause, start)
        if times >= LEAST:
            yield FoundLately(cause, lifts[cause].on, round(times, 3))


def _learnt(cause: str, start: Consultation) -> float:
    """How many times as likely as by what ships a learnt number makes a cause in such a job; 1 where it does not."""
    if not start.knowledge.unlearned:
        return 1.0
    before = Consultation(unlearned(start.knowledge), start.shop, start.session).net
    then, now = (net.priors[net.index[cause]] for net in (before, start.net))
    return max(1.0, _odds(now) / _odds(then)) if 0.0 < then < 1.0 and 0.0 < now < 1.0 else 1.0


def _odds(chance: float) -> float:
    return chance / (1.0 - chance)
