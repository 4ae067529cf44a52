"""Where to begin with goods that nobody here has pressed, on the screen and as plain JSON values."""

from collections.abc import Iterator
from typing import Any

from diagnose.cli.lookup import cards
from diagnose.cli.press.settings_pages import rows
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen
from diagnose.foresight.ladder import Goods, Ladder, Rung
from diagnose.foresight.settings import recipe
from diagnose.knowledge.cautions import at_a_press
from diagnose.speech.amounts import degrees, seconds
from diagnose.speech.preparing import purpose_words, seen_words
from diagnose.speech.saying import say

KEPT = ("Artwork", "Pre-press", "Lies", "Held", "Covered", "Below", "Pressure", "Peel")


def page(screen: Screen, shelf: Shelf, made: Ladder) -> None:
    """Cautions, the starting point, how unsure it is, and the pieces."""
    like, unit = made.goods.like, shelf.shop.temperature
    screen.line(say("new-goods-like", like=cards.titled(like)), "title")
    cards.cautions(screen, shelf.knowledge, at_a_press(shelf.knowledge.cautions, like))
    screen.line(told(made.goods), "dim")
    screen.line()
    screen.line(say("where-to-begin"), "title")
    screen.line(say("begin-there", temperature=degrees(made.start.temperature, unit), dwell=seconds(made.start.dwell)))
    screen.line(unsure(made))
    if found := recipe(like, shelf.knowledge):
        screen.line()
        screen.line(say("the-rest-as-for-its-like"), "title")
        screen.columns((name, text) for name, text in rows(shelf, found) if name in KEPT)
    screen.line()
    screen.line(say("pieces-to-press"), "title")
    for number, rung in enumerate(made.rungs, 1):
        _rung(screen, unit, number, made, rung)
    screen.line()
    screen.line(say("judge-each-one-cold"))
    screen.line(say("basis-of-the-ladder"), "dim")


def told(goods: Goods) -> str:
    """What was told of the goods, in a line."""
    parts = [f"{deep * 1e3:g} mm {stuff}" for stuff, deep in goods.layers]
    parts += ["a coat for dye on its face"] if goods.gets_a_coat else []
    parts += [f"{goods.thickness * 1e3:g} mm thick"] if goods.thickness is not None else []
    parts += [f"{goods.polyester:.0%} polyester".replace("%", " %")] if goods.polyester is not None else []
    return say("as-told", parts=", ".join(parts) or "as thick and of the same stuff")


def unsure(made: Ladder) -> str:
    """How far off the starting point may be."""
    low, high = made.dwells
    end = f"{seconds(high)}" if high is not None else "over an hour"
    return say("right-time-lies-between", least=seconds(low), most=end)


def _rung(screen: Screen, unit: str, number: int, made: Ladder, rung: Rung) -> None:
    colour = f"about {min(99, round(100 * rung.result.share))} % of full colour"
    at = f"{degrees(rung.temperature, unit)}, {seconds(rung.dwell)} ({colour})"
    screen.hang(f"{number}", f"{at}. {purpose_words(rung)}", style="key")
    for sight, then in seen_words(made, rung):
        screen.hang("-", f"{sight}: {then}", indent=2)


def to_plain(shelf: Shelf, made: Ladder) -> dict[str, Any]:
    """The same values, in °C, seconds and millimetres."""
    goods = made.goods
    return {
        "format": "presslore-ladder",
        "version": 1,
        "like": {"id": goods.like.id, "title": goods.like.title, "origin": goods.like.origin},
        "told": {
            "thickness_mm": None if goods.thickness is None else round(goods.thickness * 1e3, 3),
            "polyester": goods.polyester,
            "layers": [{"material": stuff, "mm": round(deep * 1e3, 3)} for stuff, deep in goods.layers],
        },
        "cautions": list(at_a_press(shelf.knowledge.cautions, goods.like)),
        "start": {"temperature_c": made.start.temperature, "dwell_s": made.start.dwell},
        "dwell_band_s": [None if one is None else round(one, 1) for one in made.dwells],
        "pieces": list(_pieces(made)),
    }


def _pieces(made: Ladder) -> Iterator[dict[str, Any]]:
    for rung in made.rungs:
        yield {
            "temperature_c": rung.temperature,
            "dwell_s": rung.dwell,
            "share": round(rung.result.share, 4),
            "share_band": [round(one, 4) for one in rung.result.share_band],
            "purpose": purpose_words(rung),
            "seen": [{"sight": sight, "then": then} for sight, then in seen_words(made, rung)],
        }
