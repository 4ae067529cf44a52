"""What a job gets in the press, on the screen and as plain JSON values."""

from collections.abc import Iterator
from typing import Any

from diagnose.cli.lookup import cards
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.plot import PlotLine, plot
from diagnose.cli.terminal.screen import Screen
from diagnose.foresight.heating import STEADY, Heating, Other
from diagnose.knowledge.cautions import at_a_press
from diagnose.speech.amounts import degrees, seconds, step

BASIS = (
    "Basis: heat by EN 12524, Morton and Hearle, ASHRAE; dye by Landolt-Börnstein IV/20; contact, paper and the "
    "usual settings are common practice or assumptions. A reckoning, not a measurement: press a test piece."
)
TOO_HOT = {
    "C": "Too hot: polyester softens, and melts from about 250 °C (482 °F). Stay at or below 220 °C (428 °F).",
    "F": "Too hot: polyester softens, and melts from about 482 °F (250 °C). Stay at or below 428 °F (220 °C).",
}
FUMES = {
    "C": "Sheets of PTFE give off harmful fumes from about 300 °C (572 °F) on.",
    "F": "Sheets of PTFE give off harmful fumes from about 572 °F (300 °C) on.",
}
NO_DYE = "This item has next to nothing for the dye to go into: no heat and no time mend that."


def page(screen: Screen, shelf: Shelf, heating: Heating) -> None:
    """All of it, the cautions before anything that tells a person what to do."""
    unit = shelf.shop.temperature
    screen.line(cards.titled(heating.item), "title")
    cards.cautions(screen, shelf.knowledge, at_a_press(shelf.knowledge.cautions, heating.item))
    screen.line(f"Set: {set_words(heating, unit)}")
    if heating.too_hot:
        screen.line(f"{TOO_HOT[unit]} {FUMES[unit]}", "caution")
    if heating.takes_no_dye:
        screen.line(NO_DYE, "caution")
    screen.line()
    plot(screen, _lines(heating, unit), f"°{unit}")
    screen.line()
    screen.line("What it got", "title")
    for text in got(heating, unit):
        screen.hang("-", text)
    screen.line()
    screen.line("What to set", "title")
    for text in to_set(heating, unit):
        screen.hang("-", text)
    screen.line(BASIS, "dim")


def set_words(heating: Heating, unit: str) -> str:
    """The settings in a line."""
    given = heating.settings
    sheets = f"{given.cover_sheets} cover sheet{'' if given.cover_sheets == 1 else 's'}"
    way = "through its back" if heating.body.through_back else "through the sheet"
    parts = [degrees(given.temperature, unit), seconds(given.dwell), f"{given.pressure:.0f} kPa over the item", sheets]
    parts += [f"pre-pressed {given.pre_press:.0f} s"] if given.pre_press else []
    return f"{', '.join(parts)}; heated {way if heating.body.under else 'all round'}"


def got(heating: Heating, unit: str) -> Iterator[str]:
    """What the dye got, in sentences."""
    given = heating.settings
    if given.offset:
        side = "under" if given.offset < 0 else "over"
        yield f"The platen stood {step(given.offset, unit)} {side} its display."
    if heating.sheets_leave is not None:
        more = given.cover_sheets - heating.usual.cover_sheets
        way = f"{more} more" if more > 0 else f"{-more} fewer"
        yield f"The sheets, {way} than usual, alone make it {heating.sheets_leave:.2g} times the dose."
    yield (
        f"Hottest at the dye: {degrees(heating.result.peak, unit)}; within {step(STEADY, unit)} of that after "
        f"{seconds(heating.steady)}."
    )
    if not heating.takes_no_dye:
        yield from _colour(heating, unit)


def _colour(heating: Heating, unit: str) -> Iterator[str]:
    """What the heat made of the dye."""
    result = heating.result
    yield (
        f"Dose: as much as {result.dose:.0f} s at a steady {degrees(heating.body.reference.temperature, unit)}, "
        f"{times(result.over)} what the item wants."
    )
    low, high = result.share_band
    yield f"Colour: about {_share(result.share)} of full, and likely between {_share(low)} and {_share(high)}."
    polyester = heating.item.facts.get("item.polyester")
    if isinstance(polyester, int | float) and polyester < 100:
        yield f"Full is what this cloth can show: its {100 - polyester:.0f} % of other fibre stays bare."
    if heating.wanders:
        yield "So far over, loose dye wanders: expect soft edges and a faint second copy."
    elif heating.softens:
        yield "So far over, edges begin to soften, for the dye goes on spreading in the polyester."


def to_set(heating: Heating, unit: str) -> Iterator[str]:
    """What to set, in sentences."""
    if heating.takes_no_dye:
        yield "Nothing helps but another blank: polyester, or one with a coat for dye."
        return
    if heating.as_wanted:
        yield "Near enough to what the item wants: stay with it."
    yield from _ways(heating, unit)
    if heating.instead is not None:
        yield from _instead(heating.instead, heating, unit)


def _ways(heating: Heating, unit: str) -> Iterator[str]:
    given = heating.settings
    if heating.dwell is None:
        yield f"No dwell within an hour gives what it wants at {degrees(given.temperature, unit)}."
    else:
        yield f"With {degrees(given.temperature, unit)} on the display: {seconds(heating.dwell)} is just right."
    if heating.temperature is not None:
        yield f"Within {seconds(given.dwell)}: {degrees(heating.temperature, unit)} on the display."
    else:
        yield f"No safe heat gives what it wants in {seconds(given.dwell)}: change the dwell."


def _instead(other: Other, heating: Heating, unit: str) -> Iterator[str]:
    there = f"At {degrees(other.temperature, unit)} instead"
    if other.same is None:
        yield f"{there}: not within an hour."
        return
    yield f"{there}: {seconds(other.same)} for the same as this job got."
    if not heating.as_wanted and other.wanted is not None:
        yield f"{there}: {seconds(other.wanted)} for what the item wants."


def times(over: float) -> str:
    """``just``, ``0.46 times``, ``next to nothing of``."""
    if over < 0.01:
        return "next to nothing of"
    return "just" if 0.95 <= over <= 1.05 else f"{over:.2g} times"


def as_json(shelf: Shelf, heating: Heating) -> dict[str, Any]:
    """The same values, in °C and seconds."""
    given, result, other = heating.settings, heating.result, heating.instead
    return {
        "item": {"id": heating.item.id, "title": heating.item.title, "origin": heating.item.origin},
        "settings": {
            "temperature_c": round(given.temperature, 2),
            "dwell_s": given.dwell,
            "pressure_kpa": given.pressure,
            "platen_offset_k": round(given.offset, 2),
            "cover_sheets": given.cover_sheets,
            "pre_press_s": given.pre_press,
            "through_back": heating.body.through_back,
        },
        "result": {
            "peak_c": round(result.peak, 1),
            "steady_s": round(heating.steady, 1),
            "dose_s": round(result.dose, 2),
            "reference_c": heating.body.reference.temperature,
            "over": round(result.over, 4),
            "share": round(result.share, 4),
            "share_band": [round(each, 4) for each in result.share_band],
            "takes_no_dye": heating.takes_no_dye,
            "edges_soften": heating.softens,
            "dye_wanders": heating.wanders,
            "too_hot": heating.too_hot,
            "sheets_leave": _rounded(heating.sheets_leave, 3),
        },
        "to_set": {"dwell_s": _rounded(heating.dwell), "temperature_c": _rounded(heating.temperature)},
        "instead": other
        and {
            "temperature_c": round(other.temperature, 2),
            "same_dwell_s": _rounded(other.same),
            "wanted_dwell_s": _rounded(other.wanted),
        },
        "track": [
            {"s": round(time, 2), "dye_c": round(dye, 1), "platen_c": round(platen, 1)}
            for time, dye, platen in heating.track
        ],
        "cautions": list(at_a_press(shelf.knowledge.cautions, heating.item)),
    }


def _lines(heating: Heating, unit: str) -> list[PlotLine]:
    def shown(celsius: float) -> float:
        return celsius * 1.8 + 32 if unit == "F" else celsius

    dye = [(time, shown(degrees)) for time, degrees, _ in heating.track]
    platen = [(time, shown(degrees)) for time, _, degrees in heating.track]
    return [PlotLine("*", "at the dye", dye), PlotLine(".", "platen", platen)]


def _rounded(value: float | None, places: int = 1) -> float | None:
    return None if value is None else round(value, places)


def _share(value: float) -> str:
    return f"{min(99, round(100 * value))} %"
