"""Which cautions are read before a step, whoever shows it: the command, its JSON, the handbook and the page in it.

A press brings the cautions that ``kb/cautions.yaml`` reads ``at-a-press: always``, and those of the goods; for goods
that nobody has named, or of which nothing is told, those read ``where-goods-are-unknown`` stand in. Every fix ends in a
test press and so brings them beside its own. A check brings them where it presses something itself: it is tried out,
and names all that is always read. All stand once, in the order of that file, the hottest first.
"""

from collections.abc import Iterable, Mapping
from typing import Final

from diagnose.knowledge.model import Caution, Check, Fix, Item

ALWAYS: Final = "always"
UNKNOWN_GOODS: Final = "where-goods-are-unknown"


def at_a_press(known: Mapping[str, Caution], item: Item | None = None) -> tuple[str, ...]:
    """What is read before a press of an item; None for goods that nobody has named."""
    goods = item.cautions if item and item.cautions else _read(known, UNKNOWN_GOODS)
    return hottest_first(known, (*_read(known, ALWAYS), *goods))


def before(known: Mapping[str, Caution], step: Check | Fix, item: Item | None = None) -> tuple[str, ...]:
    """What is read before a check or a fix of an item: its own, and those of the press that it brings."""
    pressing = at_a_press(known, item) if isinstance(step, Fix) or presses(known, step) else ()
    return hottest_first(known, (*step.cautions, *pressing))


def in_brief(known: Mapping[str, Caution], step: Check | Fix, ids: Iterable[str]) -> frozenset[str]:
    """Those told by their titles alone: what its test press brings to a fix that is itself done away from the press."""
    return frozenset(ids) - {*step.cautions} if is_away(known, step) else frozenset()


def is_away(known: Mapping[str, Caution], step: Check | Fix) -> bool:
    """Whether a fix is done away from the press, at a desk or a printer: it names none of the cautions of a press."""
    return isinstance(step, Fix) and not any(known[one].at_a_press for one in step.cautions if one in known)


def presses(known: Mapping[str, Caution], check: Check) -> bool:
    """Whether a check presses something."""
    always = _read(known, ALWAYS)
    return check.kind == "try" and bool(always) and {*always} <= {*check.cautions}


def hottest_first(known: Mapping[str, Caution], ids: Iterable[str]) -> tuple[str, ...]:
    """Each once, in the order of ``kb/cautions.yaml``; what nobody knows is left out."""
    named = set(ids)
    return tuple(one for one in known if one in named)


def _read(known: Mapping[str, Caution], when: str) -> tuple[str, ...]:
    return tuple(one.id for one in known.values() if one.at_a_press == when)
