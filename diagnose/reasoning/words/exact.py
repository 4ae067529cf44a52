"""What is certain: a text that is a name word for word, and ids typed as such."""

from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass

from diagnose.reasoning.words.groups import CONTRAST, NEGATORS
from diagnose.reasoning.words.spelling import Word, cut
from diagnose.reasoning.words.stems import without_plural
from diagnose.reasoning.words.units import REACH, Unit

BAR = "|"
SIGNS = ".,;:!?()\"'"


def whole_key(text: str) -> str:
    """What a whole text is known by: its words in order, whatever their case, plural and punctuation."""
    return " ".join(map(without_plural, cut(text)))


def whole_names(owners: int, names: Iterable[tuple[int, Sequence[str]]]) -> list[str]:
    """The names of each owner in one text, bars round each; names are given as (number of the owner, words)."""
    found: list[dict[str, None]] = [{} for _ in range(owners)]
    for owner, words in names:
        found[owner][" ".join(map(without_plural, words))] = None
    return [BAR + BAR.join(each) + BAR for each in found]


def whole_name(names: Sequence[str], text: str) -> int | None:
    """The first owner that a text is a name of; None where there is none."""
    wanted = f"{BAR}{whole_key(text)}{BAR}"
    return next((owner for owner, each in enumerate(names) if wanted in each), None)


@dataclass(frozen=True, slots=True)
class TypedIds:
    """Ids that were typed as such: those told, those denied ("no ghosting"), and the numbers of all their words."""

    told: tuple[str, ...]
    denied: tuple[str, ...]
    words: frozenset[int]


def typed_ids(known: Container[str], text: str, words: Sequence[Word], units: Sequence[Unit]) -> TypedIds:
    """The ids that stand in a text as such. One without a hyphen is a word like any other beside others."""
    pieces = [piece.strip(SIGNS) for piece in text.lower().split()]
    told, denied, used = list[str](), list[str](), set[int]()
    for name in dict.fromkeys(piece for piece in pieces if piece in known and ("-" in piece or len(pieces) == 1)):
        parts = cut(name)
        places = [range(place, place + len(parts)) for place in _places(words, parts)]
        deniers = [_denier(words, units, place) for place in places]
        (denied if places and None not in deniers else told).append(name)
        used.update(*places)
        used.update(*(range(*unit.words) for unit in units for word in deniers if word in range(*unit.words)))
    return TypedIds(tuple(told), tuple(denied), frozenset(used))


def _places(words: Sequence[Word], parts: Sequence[str]) -> list[int]:
    spelt = [word.text for word in words]
    return [place for place in range(len(spelt)) if spelt[place : place + len(parts)] == list(parts)]


def _denier(words: Sequence[Word], units: Sequence[Unit], place: range) -> int | None:
    """The number of the "no" shortly before an id, or of the "not" after it that has nothing else to deny
    ("ghosting is not there"); None where there is none."""
    clause = words[place.start].clause
    for number in range(place.start - 1, max(place.start - 2 - REACH, -1), -1):
        if words[number].clause != clause or words[number].text in CONTRAST:
            break
        if words[number].text in NEGATORS:
            return number
    noes = [n for n in range(place.stop, len(words)) if words[n].clause == clause and words[n].text in NEGATORS]
    after = [unit for unit in units if unit.clause == clause and unit.words[0] >= place.stop]
    return noes[0] if noes and all(noes[0] in range(*unit.words) for unit in after) else None
