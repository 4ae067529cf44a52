"""Facts of the job that a person's words give away beside the item: what it is made of, its colour, thickness."""

import re
from collections.abc import Mapping, Sequence

from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import Fact
from diagnose.reasoning.words.spelling import cut, fold
from diagnose.reasoning.words.stems import stem

POLYESTER, COLOUR, THICKNESS, COATED, FAMILY = (
    "item.polyester",
    "item.colour",
    "item.thickness",
    "item.coated",
    "item.family",
)
USUAL_BLEND = 65
POLY_WORDS, COTTON_WORDS = frozenset(("polyester", "poly")), frozenset(("cotton", "calico"))
MIXED_WORDS = frozenset(("mix", "mixed", "mixture", "blend", "blended"))  # beside the name of one: not all of it
JOINING = frozenset("for with without from of in on at by to that which where when as".split())
# The words that tell a share of polyester, by their stems: no part of what an item is.
OF_SHARES = frozenset(
    map(
        stem, "polyester poly pes cotton calico polycotton blend mixed pure half fifty all per cent pct organic".split()
    )
) | frozenset(str(share) for share in range(0, 101, 5))
_POLY = r"(?:polyester|poly|pes)\b"
_COTTON = r"(?:cotton|co|viscose|linen)\b"
_NUMBER = r"(\d{1,3})\s*(?:%|per ?cent|pct)?\s*"
PAIR = re.compile(r"\b(\d{1,2})\s*(?:%|per ?cent)?\s*[/:\-–+ ]\s*(\d{1,2})\b\s*(?:%|per ?cent)?\s*(\w*)")
OF_POLY = re.compile(_NUMBER + _POLY)
OF_COTTON = re.compile(_NUMBER + _COTTON)
ALL_COTTON = re.compile(r"\b(?:all|pure|only|whole)[ -]cotton\b")
ALL_POLY = re.compile(r"\b(?:all|pure|full|only)[ -]poly(?:ester)?\b")
THICK = re.compile(r"\b(\d{1,2}(?:\.\d)?)\s*(?:mm|millimetres?|millimeters?)\b(?: thick)?")
HALVES = re.compile(r"\b(?:fifty[ -]fifty|half and half)\b")


def polyester_share(text: str) -> int | None:
    """The share of polyester in per cent: 65 from "65/35 polyester cotton", "35 % cotton" or "65% polyester"."""
    plain = fold(text)
    for pair in PAIR.finditer(plain):
        one, other = int(pair[1]), int(pair[2])
        if one + other == 100:
            return other if pair[3].startswith("cotton") else one
    if (match := OF_POLY.search(plain)) and int(match[1]) <= 100:
        return int(match[1])
    if (match := OF_COTTON.search(plain)) and int(match[1]) <= 100:
        return 100 - int(match[1])
    if HALVES.search(plain):
        return 50
    if ALL_COTTON.search(plain):
        return 0
    return 100 if ALL_POLY.search(plain) else None


def material_share(words: Sequence[str]) -> int | None:
    """The share of polyester by the bare name of the material: none in cotton, all in polyester, the usual 65 in
    polycotton and in a mix of either. None where it is not told, or both are named apart."""
    poly = [number for number, word in enumerate(words) if word in POLY_WORDS]
    cotton = [number for number, word in enumerate(words) if word in COTTON_WORDS]
    if "polycotton" in words or any(abs(one - other) == 1 for one in poly for other in cotton):
        return USUAL_BLEND
    if poly and cotton:
        return None
    if (poly or cotton) and not MIXED_WORDS.isdisjoint(words):
        return USUAL_BLEND
    return 0 if cotton else 100 if poly else None


def thickness(text: str) -> float | None:
    """A thickness in millimetres, from "5 mm" or "5 mm thick"."""
    match = THICK.search(fold(text))
    return float(match[1]) if match else None


def colour(words: Sequence[str], near: tuple[int, int], fact: Fact) -> tuple[str, int] | None:
    """The ground colour named within or right before the words of the item, by its longest name, and where it
    starts."""
    found: tuple[int, str, int] | None = None
    for value, names in fact.words.items():
        for name in names:
            parts = cut(name)
            for start in range(len(words) - len(parts) + 1):
                longer = found is None or len(parts) > found[0]
                there = words[start : start + len(parts)] == parts
                if longer and there and _is_ground(words, start, len(parts), near):
                    found = (len(parts), value, start)
    return (found[1], found[2]) if found else None


def facts_beside(
    text: str, words: Sequence[str], near: tuple[int, int], facts: Mapping[str, Fact]
) -> tuple[dict[str, FactValue], tuple[int, int]]:
    """Every fact the words give away, and where the item stands with its colour; ``near`` is where it stands
    without."""
    given: dict[str, FactValue] = {}
    share = polyester_share(text)
    if share is None and near[1]:
        share = material_share(words[max(0, near[0] - 2) : near[1]])
    if share is not None and POLYESTER in facts:
        given[POLYESTER] = share
    if COLOUR in facts and (ground := colour(words, near, facts[COLOUR])):
        given[COLOUR] = ground[0]
        near = min(near[0], ground[1]), near[1]
    thick = thickness(text)
    if thick is not None and THICKNESS in facts and "thick" in fold(text):
        given[THICKNESS] = thick
    if COATED in facts and ("uncoated" in words or "not coated" in " ".join(words)):
        given[COATED] = False
    return given, near


def _is_ground(words: Sequence[str], start: int, length: int, near: tuple[int, int]) -> bool:
    end = start + length
    inside = near[0] <= start and end <= near[1]
    before = end <= near[0] and near[0] - end <= 2 and JOINING.isdisjoint(words[end : near[0]])
    return near[1] > near[0] and (inside or before)
