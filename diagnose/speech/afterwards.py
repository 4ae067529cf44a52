"""What comes after the answer, in words: what becomes of the spoiled piece, and of the rest of the order."""

from collections.abc import Iterator

from diagnose.dialogue.aftermath import Chosen, RestOfOrder, SpoiledPiece, rest_of_order, spoiled_piece
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Cured
from diagnose.knowledge.preparing import DISCARD
from diagnose.speech.amounts import money, percent
from diagnose.speech.saying import say


def afterwards(now: Consultation) -> list[str]:
    """At most three lines: the best way with the piece, the other ways, and whether to go on with the order. Nothing
    where nothing was seen."""
    if not now.evidence.seen:
        return []
    piece, rest = spoiled_piece(now), rest_of_order(now)
    return [*(piece_words(now, piece) if piece else ()), *([rest_words(now, rest)] if rest else ())]


def piece_words(now: Consultation, piece: SpoiledPiece) -> Iterator[str]:
    """The best way, and how or why; then the others."""
    best, *others = piece.ways
    if best.way == DISCARD:
        yield say("spoiled-piece-lost", why=piece.why)
    else:
        chance, worth = percent(best.chance), money(best.worth, now.shop.currency)
        yield say("spoiled-piece", way=best.way, says=best.says, chance=chance, worth=worth)
    yield say("other-ways", ways="; ".join(_other(now, each) for each in others if each.way != DISCARD))


def rest_words(now: Consultation, rest: RestOfOrder) -> str:
    """Whether to go on with the order, and why."""
    chance, piece = percent(rest.chance), money(rest.piece, now.shop.currency)
    go = say("rest-of-order", verdict=rest.verdict.split()[-1], every=rest.every)
    if isinstance(now.session.over, Cured):
        return f"{go} {say('next-piece-after-a-cure', chance=chance, piece=piece)}"
    return f"{go} {say('next-piece', chance=chance, piece=piece, right=money(rest.stopping, now.shop.currency))}"


def _other(now: Consultation, each: Chosen) -> str:
    comes = "never" if not each.chance else "pays" if each.worth > 0.0 else "dear"
    worth = money(each.worth, now.shop.currency)
    return say("other-way", way=each.way, comes=comes, chance=percent(each.chance), worth=worth)
