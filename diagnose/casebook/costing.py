"""What a case cost by the shop's rates, as far as its moves tell."""

from dataclasses import dataclass

from diagnose.dialogue.moves import Answered, Cured, HandedOver, Measured, TriedFix
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Item, Knowledge
from diagnose.knowledge.shop import SOFT, Rates


@dataclass(frozen=True, slots=True)
class Bill:
    """``spoilt``: pieces that cannot be sold. ``lost``: money, the minutes included where they are known."""

    spoilt: int
    lost: float


def reckon(
    session: Session, knowledge: Knowledge, rates: Rates, minutes: float | None, spoilt: int | None = None
) -> Bill:
    """The bill for a case. Each fix tried ends in a test press with a sheet of its own, on scrap where the goods allow
    it. Unless told otherwise, spoilt are the piece it began with, and each test piece of real goods that came out
    wrong."""
    item = knowledge.items.get(session.item)
    failed = sum(isinstance(move, TriedFix) for move in session.moves)
    tests = failed + sum(isinstance(move, Cured) and bool(move.fix) for move in session.moves)
    scrap = on_scrap(item, rates)
    pieces = spoilt if spoilt is not None else 1 + (0 if scrap else failed)
    goods = pieces * (item.blank_price if item else rates.blank) + (tests * rates.scrap if scrap else 0.0)
    paper = (1 + tests) * rates.paper
    help_called = rates.help if isinstance(session.over, HandedOver) else 0.0
    spent = _steps(session, knowledge, rates, item)
    return Bill(pieces, round(goods + paper + help_called + spent + (minutes or 0.0) * rates.minute, 2))


def on_scrap(item: Item | None, rates: Rates) -> bool:
    """Whether a test press can do with scrap cloth."""
    return item is not None and item.family in SOFT and rates.scrap < item.blank_price


def _steps(session: Session, knowledge: Knowledge, rates: Rates, item: Item | None) -> float:
    """What the checks and fixes used up, their minutes left out."""
    spent = 0.0
    for move in session.moves:
        if isinstance(move, Answered | Measured) and move.check in knowledge.checks:
            spent += rates.price(0.0, knowledge.checks[move.check].spends, item)
        elif isinstance(move, TriedFix | Cured) and move.fix in knowledge.fixes:
            spent += rates.price(0.0, knowledge.fixes[move.fix].spends, item)
    return spent
