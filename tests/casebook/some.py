"""Cases to test with, made up so that the same number always gives the same case."""

import random
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta

from diagnose.casebook.case import Case
from diagnose.dialogue.moves import Answered, Cured, DidNotSee, HandedOver, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session

START = datetime(2026, 1, 5, 9, 0, tzinfo=UTC)


def some_cases(number: int, first: int = 0) -> list[Case]:
    """Cases of a made-up shop, three hours apart."""
    return [some_case(first + one) for one in range(number)]


def some_case(number: int) -> Case:
    chance = random.Random(number)
    endings: list[Move] = [Cured("peel-in-one-stroke"), Cured(), HandedOver()]
    return a_case(
        number,
        [
            Pressed(chance.choice(["tea-towel-65-35", "mug", ""]), {"item.polyester": 65, "item.coated": False}),
            Saw((chance.choice(["ghosting", "faint-colour"]),)),
            *([DidNotSee(("banding",))] if chance.random() < 0.3 else []),
            Answered("edges-under-magnifier", chance.choice(["edges-sharp", "edges-doubled"])),
            *([TriedFix("tape-two-edges", "same")] if chance.random() < 0.5 else []),
            chance.choice(endings),
        ],
        press=chance.choice(["left", "right"]),
        minutes=round(chance.uniform(2, 40), 1),
        spoilt=chance.randrange(4),
        lost=round(chance.uniform(0, 20), 2),
        took={"edges-under-magnifier": round(chance.uniform(1, 5), 2)},
    )


def a_case(number: int, moves: Iterable[Move], **more: object) -> Case:
    """A case with these moves; the number gives it its id and its time."""
    ended = START + timedelta(hours=3 * number)
    return Case(id=f"{number:032x}", ended=ended, session=Session(tuple(moves)), **more)  # type: ignore[arg-type]
