"""A colour difference as a person would put it: ``lighter and a little less colourful``, ``turned towards yellow``."""

from diagnose.press.colour.difference import Difference
from diagnose.press.colour.lab import Lab

SEEN = 0.5  # in CIEDE2000: a part below this goes unsaid
A_LITTLE, MUCH = 1.5, 5.0
NEUTRAL = 8.0  # chroma up to which a colour passes for white, grey or black
HUES = {"red": 25.0, "yellow": 90.0, "green": 164.0, "blue": 246.0, "purple": 315.0}  # where people place them, about


def in_words(difference: Difference) -> str:
    """What is seen, the strongest first; ``no difference to the eye`` where nothing is."""
    parts = difference.parts
    said = [(abs(parts.lightness), "lighter" if parts.lightness > 0 else "darker")]
    if is_neutral(difference.proof):
        said += _shift(difference)
    else:
        said.append((abs(parts.chroma), "more colourful" if parts.chroma > 0 else "less colourful"))
        if not is_neutral(difference.print_):
            said.append((abs(parts.hue), f"turned towards {towards(difference)}"))
    seen = sorted((size, word) for size, word in said if size >= SEEN)[::-1]
    if not seen:
        return "hardly a difference to the eye" if difference.ciede2000 >= SEEN else "no difference to the eye"
    return _listed([f"{_how_much(size, word)}{word}" for size, word in seen])


def seen(distance: float) -> str:
    """What a CIEDE2000 means to a person; the bounds are common practice."""
    bounds = ((0.5, "not to be seen"), (1.0, "only just seen side by side"), (2.0, "seen side by side"))
    for bound, words in (*bounds, (5.0, "seen at a glance")):
        if distance < bound:
            return words
    return "plainly different"


def is_neutral(colour: Lab) -> bool:
    return colour.chroma <= NEUTRAL


def towards(difference: Difference) -> str:
    """The hue that a turn leads to: the next one on its way, but for those it leaves behind."""
    hue, turn = difference.proof.hue, difference.hue
    way = {name: (place - hue if turn > 0 else hue - place) % 360.0 for name, place in HUES.items()}
    return min((name for name in way if way[name] > 0.6 * abs(turn)), key=way.__getitem__, default="red")


def name(colour: Lab) -> str:
    """A plain name: ``dark blue``, ``pale yellow``, ``grey``."""
    if is_neutral(colour):
        bounds = ((25.0, "black"), (45.0, "dark grey"), (70.0, "grey"), (88.0, "light grey"))
        return next((word for bound, word in bounds if colour.lightness < bound), "white")
    if colour.lightness > 85 and colour.chroma < 15 and 55 < colour.hue < 110:
        return "cream"
    hues = {
        20.0: "pink" if colour.lightness > 60 else "red", 45.0: "red", 75.0: "orange", 105.0: "yellow",
        195.0: "green", 240.0: "turquoise", 300.0: "blue", 335.0: "purple", 360.0: "pink",
    }  # fmt: skip
    hue = next(word for bound, word in hues.items() if colour.hue <= bound)
    if hue == "orange" and colour.lightness < 50:
        hue = "brown"
    return f"{_depth(colour, hue)}{hue}"


def _depth(colour: Lab, hue: str) -> str:
    if colour.lightness < 32:
        return "dark "
    if colour.lightness > 75 and colour.chroma < 40 and hue != "pink":
        return "pale "
    return "greyish " if colour.chroma < 20 else ""


def _shift(difference: Difference) -> list[tuple[float, str]]:
    """On white, grey or black a shift is seen as a tint; sizes in CIELAB, which is near enough there."""
    return [
        (abs(difference.b), "yellower" if difference.b > 0 else "bluer"),
        (abs(difference.a), "redder" if difference.a > 0 else "greener"),
    ]


def _how_much(size: float, word: str) -> str:
    if word.startswith("turned"):
        return "slightly " if size < A_LITTLE else "far " if size > MUCH else ""
    return "a little " if size < A_LITTLE else "much " if size > MUCH else ""


def _listed(words: list[str]) -> str:
    return " and ".join(filter(None, [", ".join(words[:-1]), words[-1]]))
