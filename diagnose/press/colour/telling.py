"""What a blend does to a print, in sentences: for the customer, and for who reads a swatch by ear."""

from collections.abc import Sequence

from diagnose.press.colour.blend import WHITE_CLOTH, Blend, OnBlend
from diagnose.press.colour.difference import Difference, ciede2000
from diagnose.press.colour.words import in_words, name

HARDLY, SOFT, PALER = 2.0, 6.0, 15.0  # CIEDE2000; common practice: what passes, what is softer, what is paler
DARK, SUNK = 35.0, 12.0  # lightness: of dark cloth, and how far a print must stand out from it


def percent(share: float) -> str:
    return f"{100.0 * share:g} %"


def cloth(share: float) -> str:
    """``65 % polyester``, ``all cotton``."""
    return {0.0: "all cotton", 1.0: "all polyester"}.get(share, f"{percent(share)} polyester")


def becomes(found: Blend, on: OnBlend) -> str:
    """The washed print beside the same on all polyester."""
    if on.share == 0.0:
        return "after the wash nothing is left"
    words = in_words(Difference(found.full, on.washed.stated))
    return f"washed it is {words}" if on.off >= 0.5 else "it stays as it was printed"


def for_customer(blends: Sequence[Blend], share: float) -> str:
    """What to tell the customer about this cloth, in one or two sentences."""
    if share == 0.0:
        return "All cotton holds no dye: the print would wash out. Ask for a cloth with polyester, or another method."
    ons = [on for each in blends for on in each.on if on.share == share]
    off = max(on.off for on in ons)
    if off < HARDLY:
        return "The print comes out in full colour and keeps it well: the dye is inside the fibre."
    how = "a little softer" if off < SOFT else "clearly paler" if off < PALER else "much paler"
    cotton = percent(round(1.0 - share, 6))
    text = (
        f"On this cloth, {cotton} of it cotton, the print is {how} than on all polyester and its colour is "
        "heathered, because cotton holds no dye"
    )
    lost = max(on.lost for on in ons)
    return (
        f"{text}; the first washes take off what lies loose, and what is in the polyester stays far longer."
        if lost >= HARDLY
        else f"{text}."
    )


def _sinks(found: Blend) -> bool:
    """Whether the print hardly stands out from its cloth; on dark cloth only what is lighter or darker stands out."""
    if found.ground.lightness < DARK:
        return abs(found.full.lightness - found.ground.lightness) < SUNK
    return ciede2000(found.full, found.ground) < SOFT


def of_ground(found: Blend, called: str = "") -> str:
    """What a tinted cloth does to a print; "" on white."""
    if ciede2000(found.ground, WHITE_CLOTH) < HARDLY:
        return ""
    off = ciede2000(found.wanted, found.full)
    words = in_words(Difference(found.wanted, found.full))
    lost = ", so that it can hardly be seen" if _sinks(found) else ""
    tail = f"is {words}{lost}" if off >= 0.5 else "hardly changes"
    return f"On {called or name(found.ground)} cloth the print {tail}."
