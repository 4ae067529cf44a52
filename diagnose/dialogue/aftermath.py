"""What comes after the answer: what becomes of the spoiled piece, and of the rest of the order.

The rest of the order is decided by what is expected to be lost. Each cause spoils the next piece as often as the check
on which pieces have the fault says of it; where that check was answered, as the answer says. Three ways are held
against each other over the pieces that may be left: to go on and look at nothing; to go on and look at every n-th
piece, until one is spoiled and the fault is put right; and to put it right first. Looks lie so close that no more than
one spoiled piece is to be expected between two of them.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import prod

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Cured
from diagnose.foresight.forecast import CARE, EVEN, GO, LATER, STOP
from diagnose.knowledge.model import Check
from diagnose.knowledge.preparing import DISCARD, PRESS_AGAIN, PRINT_OVER, SECOND, WAYS, Salvage, salvage_of
from diagnose.reasoning.network import FindingNode, mistaken_each
from diagnose.reasoning.planning import hypotheses

ORDER = 10  # pieces that are taken to be left of an order: nobody says how many
LOOK = 0.25  # minutes that a look at a piece takes
EVERIES = (1, 2, 3, 5, 10)  # of how many pieces one is looked at
OFTENER = 2.0  # times as often spoiled as a usual press: from here on care is taken, as before a press
BRINGS = 0.5  # of a blank's price that a second brings: judgement, for no shop says
TINY = 1e-9
DECIMALS = 9  # to which prices are held against each other, so that both engines decide alike


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A thing to do with the piece: how often it comes out well, how or why not, and what it is ``worth`` in the shop's
    money beside discarding it: the piece that need not be made anew, or the price of a second, less what it takes."""

    way: str
    chance: float
    worth: float
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SpoiledPiece:
    """What becomes of the piece. ``ways``: the best first, to discard it among them; ``why`` it can be saved or not;
    ``cautions`` before it is tried."""

    ways: tuple[Chosen, ...]
    why: str
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RestOfOrder:
    """Whether to go on: ``verdict`` is ``GO``, ``CARE`` or ``STOP``. ``chance``: that the next piece is spoiled as
    well; ``every``: of how many pieces one is looked at, 0 where none is; ``going``, ``caring``, ``stopping``: what
    each is expected to cost; ``piece``: what a spoiled piece costs."""

    verdict: str
    chance: float
    every: int
    going: float
    caring: float
    stopping: float
    piece: float


def spoiled_piece(now: Consultation) -> SpoiledPiece | None:
    """What becomes of the piece with all that is wrong with it; None where nothing is said of any of it. Of several
    faults the one that is worst to put right counts for each way."""
    known = now.knowledge.salvage.values()
    faults = now.evidence.left or now.evidence.seen
    told = list(filter(None, (salvage_of(known, defect, now.job) for defect in faults)))
    if not told:
        return None
    ways = sorted([*_ways(now, told), Chosen(way=DISCARD, chance=1.0, worth=0.0, says="")], key=_by_worth)
    worst = min(told, key=lambda each: max(way.comes_out.value for way in each.ways.values()))
    named = {caution for each in told for caution in each.cautions}
    return SpoiledPiece(
        ways=tuple(ways),
        why=worst.why,
        cautions=tuple(caution for caution in now.knowledge.cautions if caution in named),
    )


def rest_of_order(now: Consultation) -> RestOfOrder | None:
    """Whether to go on with the order; None where the knowledge does not say which pieces a fault touches."""
    check = next((each for each in now.knowledge.checks.values() if _tells_of_the_next(each)), None)
    if check is None or check.id not in now.net.checks:
        return None
    faults = list(_still_there(now, _spoils(now, check)))
    chance = sum([weight * spoils for weight, spoils in faults])
    piece = now.shop.rates.piece(now.item)
    chance = round(chance, DECIMALS)
    stopping, going = round(now.advice.cost, DECIMALS), round(ORDER * piece * chance, DECIMALS)
    look = LOOK * now.shop.rates.minute
    seldom = [every for every in EVERIES if every * chance <= 1.0] or EVERIES[:1]
    looked = [(_looking(faults, every, piece, look, stopping), every) for every in seldom]
    caring, every = min((round(cost, DECIMALS), every) for cost, every in looked)
    verdict = _verdict(chance, going, caring, stopping, now.shop.spoilt)
    return RestOfOrder(
        verdict=verdict,
        chance=chance,
        every=every if verdict == CARE else 0,
        going=going,
        caring=caring,
        stopping=stopping,
        piece=piece,
    )


def _by_worth(way: Chosen) -> tuple[float, int]:
    return -round(way.worth, DECIMALS), (*WAYS, DISCARD).index(way.way)


def _ways(now: Consultation, told: Sequence[Salvage]) -> Iterator[Chosen]:
    for name in WAYS:
        found = [each.ways[name] for each in told if name in each.ways]
        if len(found) < len(told):  # what cannot be cleaned up of one fault stays, however well the others come off
            continue
        way = min(found, key=lambda one: one.comes_out.value)
        chance = way.comes_out.value
        yield Chosen(way=name, chance=chance, worth=_worth(now, name, chance, way.minutes), says=way.says)


def _worth(now: Consultation, name: str, chance: float, minutes: float) -> float:
    """What a way is worth. A piece that is saved need not be made anew; trying costs the time, and a sheet where one is
    printed over it."""
    rates, item = now.shop.rates, now.item
    if name == SECOND:
        return chance * BRINGS * (item.blank_price if item else rates.blank)
    pressed = rates.test_minutes(item) if name in (PRESS_AGAIN, PRINT_OVER) else 0.0
    paper = rates.paper if name == PRINT_OVER else 0.0
    return chance * rates.piece(item) - (pressed + minutes) * rates.minute - paper


def _tells_of_the_next(check: Check) -> bool:
    return any(outcome.next_spoils.value for outcome in check.outcomes)


def _spoils(now: Consultation, check: Check) -> list[float]:
    """By cause index, how often the next piece is spoiled where that cause is behind it; last where it is something
    unknown. What came after the press spoils no piece in the press."""
    node = now.net.checks[check.id]
    given = now.evidence.answers.get(check.id)
    answer = node.outcomes.index(given[0]) if given else None
    next_spoils = [outcome.next_spoils.value for outcome in check.outcomes]
    plain = _spoils_by(node, (), answer, next_spoils)
    causes = now.knowledge.causes
    return [
        0.0
        if causes[cause].family == LATER
        else _spoils_by(node, node.links[index], answer, next_spoils)
        if index in node.links
        else plain
        for index, cause in enumerate(now.net.causes)
    ] + [plain]


def _spoils_by(node: FindingNode, link: Sequence[float], answer: int | None, spoils: Sequence[float]) -> float:
    """How often the next piece is spoiled: over what there is by the cause and the leak, as far as the answer leaves it
    open."""
    levels = len(node.leak) + 1
    reached = [prod(1.0 - sum(picks[level:]) for picks in (node.leak, link) if picks) for level in range(levels)]
    there = [reached[0], *(max(0.0, high - low) for low, high in pairwise(reached))]
    if answer is not None and node.wrong:
        other = mistaken_each(node.wrong, levels - 1, 1)
        there = [share * (1.0 - node.wrong if level == answer else other) for level, share in enumerate(there)]
    elif answer is not None:
        there = [float(level == answer) for level in range(levels)]
    total = sum(there)
    return sum([share * chance for share, chance in zip(there, spoils, strict=True)]) / total if total else 0.0


def _still_there(now: Consultation, spoils: Sequence[float]) -> Iterator[tuple[float, float]]:
    """What may still be behind it, each with its weight and how often it spoils a piece; the weights fall short of 1
    by what is put right. After a cure that is what the fix does not cure and the good test piece came through by
    chance."""
    kept, weights = hypotheses(now.beliefs)
    each = [(weight, index) for weight, index in zip(weights, [*kept, len(spoils) - 1], strict=True)]
    over = now.session.over
    if not isinstance(over, Cured):
        yield from ((weight, spoils[index]) for weight, index in each)
        return
    cures = now.net.cures.get(over.fix, {})
    good = [(weight * (1.0 - cures.get(index, 0.0)) * (1.0 - spoils[index]), index) for weight, index in each]
    total = sum([weight for weight, _ in good]) + sum([weight * cures.get(index, 0.0) for weight, index in each])
    yield from ((weight / total, spoils[index]) for weight, index in good if total)


def _looking(faults: Sequence[tuple[float, float]], every: int, piece: float, look: float, right: float) -> float:
    """What going on costs where every n-th piece is looked at, and the fault put right once one is spoiled."""
    looks = ORDER / every
    put_right = 1.0 - sum([weight for weight, _ in faults])
    cost = max(0.0, put_right) * looks * look
    for weight, spoils in faults:
        found = 1.0 - (1.0 - spoils) ** looks
        made = found / spoils if spoils > TINY else looks
        cost += weight * (found * (every * piece + right) + look * made)
    return cost


def _verdict(chance: float, going: float, caring: float, stopping: float, usual: float) -> str:
    """Stop where a piece is as likely spoiled as not, as before a press, and where stopping is expected to lose least;
    care where that does, or where a piece is twice as likely spoiled as usual."""
    if chance >= EVEN or stopping < min(going, caring):
        return STOP
    return CARE if caring < going or chance > OFTENER * usual else GO
