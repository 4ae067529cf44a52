"""How an item is pressed, on the screen and as plain JSON values. Cautions come first."""

from collections.abc import Iterable, Iterator
from typing import Any

from diagnose.cli.lookup import cards
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen
from diagnose.foresight.settings import Recipe, SettingLine
from diagnose.knowledge.model import SHIPPED, Item
from diagnose.knowledge.preparing import Statement
from diagnose.speech.amounts import degrees_between, seconds_between
from diagnose.speech.preparing import done, part_title, part_words
from diagnose.speech.saying import say


def page(screen: Screen, shelf: Shelf, recipe: Recipe, *, why: bool) -> None:
    """All of it, in the order of the work."""
    screen.line(cards.titled(recipe.item), "title")
    cards.cautions(screen, shelf.knowledge, recipe.cautions)
    for statement in recipe.against:
        screen.hang("!", say("speaks-against-pressing-it", why=statement.why, do=statement.do), style="bad")
    screen.line()
    screen.columns(rows(shelf, recipe))
    if why:
        screen.line()
        screen.line("Why", "title")
        for line in recipe.lines:
            if line.why:
                screen.hang("-", f"{part_title(line.part)}: {line.why}")
    if recipe.settings.note:
        screen.line()
        screen.line(recipe.settings.note)
    screen.line()
    screen.line(say("a-place-to-start-from"), "dim")
    for text in grounds(shelf, recipe):
        screen.line(text, "dim")


def rows(shelf: Shelf, recipe: Recipe) -> Iterator[tuple[str, str]]:
    """Heat, time and pressure, then each part of the work and what is done."""
    settings = recipe.settings
    yield "Heat", degrees_between(settings.temperature, shelf.shop.temperature)
    yield "Time", say("time-by-heat", time=seconds_between(settings.dwell))
    yield "Pressure", f"{settings.pressure}: contact everywhere, no crushing"
    for part in ("artwork", "pre-press", "face", "held", "cover", "pad"):
        if line := recipe.line(part):
            yield part_title(part), part_words(line) + _whose(line)
    peel = recipe.line("peel")
    told = f". {part_words(peel)}{_whose(peel)}" if peel else ""
    yield "Peel", f"{settings.peel}, after {settings.settle:g} s{told}"


def grounds(shelf: Shelf, recipe: Recipe) -> Iterator[str]:
    """On whose word the heat, the time and the pressure stand, and the rest where it is another's."""
    own = cards.basis(shelf.knowledge, recipe.item.basis)
    others: dict[str, list[str]] = {}
    for line in recipe.lines:
        others.setdefault(cards.basis(shelf.knowledge, line.basis), []).append(part_title(line.part).lower())
    if set(others) <= {own}:
        yield say("basis-of-every-line", own=own)
        return
    yield say("basis-of-heat-time-and-pressure", own=own)
    for basis, parts in others.items():
        yield say("basis-of", parts=", ".join(parts), basis=basis)


def to_plain(recipe: Recipe) -> dict[str, Any]:
    """The same values, in °C and seconds; windows as [least, most]."""
    item, settings = recipe.item, recipe.settings
    return {
        "format": "presslore-settings",
        "version": 1,
        "item": _entry(item),
        "cautions": list(recipe.cautions),
        "against": _against(recipe.against),
        "temperature_c": list(settings.temperature),
        "dwell_s": list(settings.dwell),
        "pressure": settings.pressure,
        "peel": settings.peel,
        "settle_s": settings.settle,
        "note": settings.note,
        "basis": list(item.basis),
        "parts": [_part(line) for line in recipe.lines],
    }


def barred_to_plain(item: Item, against: Iterable[Statement]) -> dict[str, Any]:
    """Why an item is not pressed."""
    return {
        "format": "presslore-not-pressed",
        "version": 1,
        "item": _entry(item),
        "against": _against(against),
    }


def _entry(item: Item) -> dict[str, str]:
    return {"id": item.id, "title": item.title, "origin": item.origin}


def _against(statements: Iterable[Statement]) -> list[dict[str, str]]:
    return [{"statement": one.id, "why": one.why, "do": one.do} for one in statements]


def _part(line: SettingLine) -> dict[str, Any]:
    return {
        "part": line.part,
        "text": done(line),
        "seconds": list(line.seconds) if line.seconds else None,
        "why": line.why,
        "basis": list(line.basis),
        "origin": line.origin,
    }


def _whose(line: SettingLine) -> str:
    return "" if line.origin == SHIPPED else f" [{line.origin}]"
