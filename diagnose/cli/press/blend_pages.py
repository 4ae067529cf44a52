"""Predicted blends: swatches and numbers on the screen, and as JSON values."""

from collections.abc import Sequence
from typing import Any

from diagnose.cli.press.colour_pages import lab_values
from diagnose.cli.terminal import swatches
from diagnose.cli.terminal.screen import Screen
from diagnose.press.colour.blend import STATED, Blend, OnBlend, Ways
from diagnose.press.colour.conversion import hexed, shown
from diagnose.speech.colour import becomes, cloth, for_customer, name, of_ground
from diagnose.speech.saying import say


def page(screen: Screen, found: Sequence[Blend]) -> None:
    for each in found:
        _blend(screen, each)
        screen.line()
    screen.line(say("what-to-tell-the-customer"), "title")
    for share in dict.fromkeys(on.share for each in found for on in each.on):
        screen.hang("-", f"{_capital(cloth(share))}: {for_customer(found, share)}")
    screen.line()
    screen.line(say("blends-are-reckoned-so"), "dim")


def _blend(screen: Screen, found: Blend) -> None:
    screen.line(f"{_capital(name(found.wanted))} print: {found.wanted} on white polyester", "title")
    for wanted, taken in found.taken.items():
        screen.line(say("no-cloth-gives-back", wanted=wanted, taken=taken), "dim")
    if told := of_ground(found):
        screen.line(say("ground-and-no-white", ground=told))
    drawn = swatches.depth(screen) != swatches.NONE
    if drawn:
        if not all(shown(ways.stated) for on in found.on for ways in (on.fresh, on.washed)):
            screen.line(say("some-of-these-colours"), "dim")
        screen.whole("fresh    washed")
    for on in found.on:
        if drawn:
            grounds = [swatches.ground(screen, ways.stated) for ways in (on.fresh, on.washed)]
            screen.swatches(grounds, cloth(on.share))
        _numbers(screen, found, on)


def _numbers(screen: Screen, found: Blend, on: OnBlend) -> None:
    if on.share == 1.0:
        screen.hang("-", f"{_capital(cloth(on.share))}: {becomes(found, on)}.")
        return
    screen.hang("-", say("becomes-and-off", cloth=_capital(cloth(on.share)), becomes=becomes(found, on), off=on.off))
    screen.hang(
        " ",
        say(
            "fresh-and-washed",
            fresh=on.fresh.stated,
            fresh_name=name(on.fresh.stated),
            washed=on.washed.stated,
            washed_name=name(on.washed.stated),
            lost=on.lost,
            fresh_spread=on.fresh.spread,
            washed_spread=on.washed.spread,
        ),
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def to_plain(found: Sequence[Blend], on_cotton: float) -> dict[str, Any]:
    """The blends as plain JSON values."""
    shares = dict.fromkeys(on.share for each in found for on in each.on)
    return {
        "light": "D65",
        "stated_way": STATED,
        "dye_on_cotton": on_cotton,
        "prints": [_plain(each) for each in found],
        "customer": {cloth(share): for_customer(found, share) for share in shares},
    }


def _plain(found: Blend) -> dict[str, Any]:
    return {
        "print": lab_values(found.wanted),
        "ground": lab_values(found.ground),
        "on_polyester": lab_values(found.full),
        "taken": [{"given": lab_values(one), "taken": lab_values(other)} for one, other in found.taken.items()],
        "blends": [
            {
                "polyester": on.share,
                "fresh": _ways(on.fresh),
                "washed": _ways(on.washed),
                "from_polyester": round(on.off, 3),
                "lost_in_wash": round(on.lost, 3),
                "threads_apart": round(on.threads, 3),
                "words": becomes(found, on),
            }
            for on in found.on
        ],
    }


def _ways(ways: Ways) -> dict[str, Any]:
    return {
        "stated": {**lab_values(ways.stated), "screen": hexed(ways.stated)},
        "by": {way: lab_values(colour) for way, colour in ways.by.items()},
        "spread": round(ways.spread, 3),
    }
