"""Everyday words that mean the same, made ready: single words by stem, fixed phrases by how they start."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from diagnose.knowledge.model import WordGroup
from diagnose.reasoning.words.spelling import BREAKS, cut_each
from diagnose.reasoning.words.stems import stem

GROUP = "#"
NOT = "!"
NEGATORS = frozenset(
    "not no never without isnt wasnt arent werent aint didnt doesnt dont wont wouldnt cant cannot couldnt "
    "hasnt havent hadnt nor neither none lacks lacking minus zero nein nie kein keine nix nope".split()
)
SKIPPED = frozenset(
    "a an the it its is my our your his her their this that these those some very so quite really such been has "
    "have had".split()
)
CONTRAST = frozenset("just only simply merely rather instead still otherwise".split())


class Phrase(NamedTuple):
    """A fixed phrase. ``keys``: stems, or whole words where it counts only as written. ``group``: "" if plain.
    ``spans``: it has a joining word in it, so that it may reach over the end of a clause."""

    keys: Sequence[str]
    group: str
    as_written: bool
    spans: bool


@dataclass(frozen=True, slots=True)
class Groups:
    """``of_stem``: stem -> groups. ``phrases``: the first two keys -> phrases, the longest first. ``plain``:
    words without a meaning of their own. ``words``: every word in any of them."""

    of_stem: Mapping[str, Sequence[str]]
    phrases: Mapping[str, Sequence[Phrase]]
    plain: frozenset[str]
    words: frozenset[str]

    @classmethod
    def of(cls, groups: Iterable[WordGroup]) -> "Groups":
        entries = [
            (group, member, as_written)
            for group in groups
            for as_written, members in ((False, group.members), (True, group.as_written))
            for member in members
        ]
        cuts = cut_each(member for _, member, _ in entries)
        of_stem: dict[str, tuple[str, ...]] = {}
        plain: set[str] = set()
        phrases: list[Phrase] = []
        for (group, _, as_written), words in zip(entries, cuts, strict=True):
            parts = [word for word in words if word not in SKIPPED and word not in BREAKS]
            if len(parts) > 1:
                phrases.append(_phrase(group, parts, as_written, not BREAKS.isdisjoint(words)))
            elif group.plain:
                plain.update(words)
            elif parts and not as_written:
                root, name = stem(parts[0]), GROUP + group.id
                if name not in of_stem.get(root, ()):
                    of_stem[root] = (*of_stem.get(root, ()), name)
        known = {word for words in cuts for word in words} | NEGATORS | SKIPPED
        return cls(of_stem, _by_start(phrases), frozenset(plain), frozenset(known))


@lru_cache(maxsize=20_000)
def key(word: str) -> str:
    """What a word is known by within a fixed phrase."""
    return NOT if word in NEGATORS else stem(word)


def _phrase(group: WordGroup, parts: Sequence[str], as_written: bool, spans: bool) -> Phrase:
    keys = tuple(part if as_written else key(part) for part in parts)
    return Phrase(keys, "" if group.plain else GROUP + group.id, as_written, spans)


def _by_start(phrases: list[Phrase]) -> dict[str, list[Phrase]]:
    by: dict[str, list[Phrase]] = {}
    for phrase in sorted(phrases, key=lambda p: (-len(p.keys), p.group, p.keys)):
        first, second = phrase.keys[:2]
        start = f"{key(first)} {key(second)}" if phrase.as_written else f"{first} {second}"
        by.setdefault(start, []).append(phrase)
    return by
