"""A print judged beside its proof: distance, both grades, and which kinds of fault it looks like.

The kinds are plain names with a size; what causes such a fault is for the knowledge to say.
"""

from dataclasses import dataclass

from diagnose.press.colour import grades
from diagnose.press.colour.difference import Difference
from diagnose.press.colour.lab import Lab
from diagnose.press.colour.looks import is_neutral

TOLERANCE = 2.0  # CIEDE2000; common practice: two prints this near pass side by side
WEAKER, STRONGER, DULLER, TURNED = "weaker", "stronger", "duller", "turned"
YELLOWED, TINTED, BROWNED = "yellowed", "tinted", "browned"
KINDS = (WEAKER, STRONGER, DULLER, TURNED, YELLOWED, TINTED, BROWNED)
GROUND = 85.0  # lightness from which a neutral proof is bare cloth
SHADE = 60.0  # lightness up to which a neutral proof is black or grey ink
DEEP = 40.0  # up to here a colour may gain chroma as it loses dye, as navy does
LEAST = 0.8  # CIEDE2000 that a kind must make up before it is named


@dataclass(frozen=True, slots=True)
class Sign:
    """A kind of fault that a difference looks like, and how much of it (in CIEDE2000) speaks for that kind."""

    kind: str
    size: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """All that is said of a pair. ``change`` and ``staining`` are steps such as ``3-4``, with their ratings before
    they were set to a step. ``signs`` come strongest first; none where the print passes."""

    difference: Difference
    tolerance: float
    ciede2000: float
    change: str
    change_rating: float
    staining: str
    staining_rating: float
    signs: tuple[Sign, ...]

    @property
    def passes(self) -> bool:
        return self.ciede2000 <= self.tolerance


def judge(proof: Lab, print_: Lab, tolerance: float = TOLERANCE) -> Judgement:
    difference = Difference(proof, print_)
    changed, stained = grades.change_distance(proof, print_), grades.staining_distance(proof, print_)
    return Judgement(
        difference=difference,
        tolerance=tolerance,
        ciede2000=difference.ciede2000,
        change=grades.change_grade(changed),
        change_rating=grades.change_rating(changed),
        staining=grades.staining_grade(stained),
        staining_rating=grades.staining_rating(stained),
        signs=signs(difference) if difference.ciede2000 > tolerance else (),
    )


def signs(difference: Difference) -> tuple[Sign, ...]:
    """The kinds of fault that a difference looks like, the strongest first."""
    proof = difference.proof
    if is_neutral(proof) and proof.lightness >= GROUND:
        found = _on_ground(difference)
    elif is_neutral(proof):
        found = _on_neutral(difference)
    else:
        found = _on_colour(difference)
    return tuple(sorted((sign for sign in found if sign.size >= LEAST), key=lambda sign: -sign.size))


def _on_ground(difference: Difference) -> list[Sign]:
    whole = difference.ciede2000
    warm = difference.b > 0.0 and abs(difference.a) <= difference.b
    return [Sign(YELLOWED if warm else TINTED, whole)] if difference.lightness < 0.0 or _coloured(difference) else []


def _coloured(difference: Difference) -> bool:
    """Whether the ground's shift is a tint rather than lightness."""
    return abs(difference.a) + abs(difference.b) >= 1.0


def _on_neutral(difference: Difference) -> list[Sign]:
    parts = difference.parts
    tint = (difference.a**2 + difference.b**2) ** 0.5
    warm = difference.b > 0.0 and difference.a > -difference.b
    shade = difference.proof.lightness <= SHADE
    return [
        Sign(BROWNED if warm and shade else TURNED, tint if tint > abs(parts.lightness) / 2.0 else 0.0),
        Sign(WEAKER if parts.lightness > 0.0 else STRONGER, abs(parts.lightness)),
    ]


def _on_colour(difference: Difference) -> list[Sign]:
    parts = difference.parts
    found = [Sign(TURNED, abs(parts.hue) if abs(parts.hue) > _plain(difference) / 2.0 else 0.0)]
    lighter, fuller = parts.lightness > 0.0, parts.chroma > 0.0
    deep = difference.proof.lightness <= DEEP and abs(parts.lightness) > abs(parts.chroma)
    size = _plain(difference)
    if not lighter and not fuller and abs(parts.chroma) > abs(parts.lightness):
        found.append(Sign(DULLER, size))
    elif lighter and (not fuller or deep or parts.chroma < LEAST):
        found.append(Sign(WEAKER, size))
    elif not lighter and (fuller or deep or abs(parts.chroma) <= abs(parts.lightness)):
        found.append(Sign(STRONGER, size))
    return found


def _plain(difference: Difference) -> float:
    """What is left of the difference without the turn of hue."""
    parts = difference.parts
    return float((parts.lightness**2 + parts.chroma**2) ** 0.5)
