"""What comes nearest to words that name nothing: a few defects or items to choose from."""

from collections.abc import Iterable, Mapping
from math import log

from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import Item, Knowledge
from diagnose.reasoning.words import Lexicon, rank_defects
from diagnose.reasoning.words.slips import allowed, distance
from diagnose.reasoning.words.spelling import cut, taken

MOST = 3
LEAST_LETTERS = 3  # a shorter word names no goods
LIKE: Mapping[str, tuple[str, FactValue]] = {  # what words say of goods that are on no list: a fact and its value
    **dict.fromkeys(("hard", "solid", "stiff", "rigid"), ("item.hard", True)),
    **dict.fromkeys(("cloth", "fabric", "soft", "textile", "garment"), ("item.hard", False)),
    **dict.fromkeys(("flat", "level"), ("item.shape", "flat")),
    **dict.fromkeys(("curved", "round", "bent", "domed", "cylinder", "tube"), ("item.shape", "curved")),
    "coated": ("item.coated", True),
    **dict.fromkeys(("uncoated", "bare", "raw"), ("item.coated", False)),
}


def nearest_defects(lexicon: Lexicon, text: str) -> tuple[str, ...]:
    """Up to three defects that anything in the words speaks for, the nearest first."""
    return tuple(match.id for match in rank_defects(lexicon, text)[:MOST])


def nearest_items(knowledge: Knowledge, text: str) -> tuple[str, ...]:
    """Up to three items one of whose names shares a word with the text, or nearly so; the nearest first."""
    typed = [word for word in cut(taken(text)) if len(word) >= LEAST_LETTERS and word.isalpha()]
    if not typed:
        return ()
    known = {item.id: _words(item) for item in knowledge.items.values()}
    often = _often(known.values())
    ranked = sorted(
        ((_shared(typed, words, often), item) for item, words in known.items()), key=lambda pair: (-pair[0], pair[1])
    )
    return tuple(item for share, item in ranked[:MOST] if share)


def features(knowledge: Knowledge, text: str) -> dict[str, FactValue]:
    """What the words say of goods that are on no list: cloth or hard, flat or curved, coated or not."""
    words = cut(taken(text))
    told: dict[str, FactValue] = {}
    for place, word in enumerate(words):
        if word in LIKE:
            fact, value = LIKE[word]
            denied = place > 0 and words[place - 1] in ("not", "no", "isnt")
            told[fact] = not value if denied and isinstance(value, bool) else value
    return {fact: value for fact, value in told.items() if fact in knowledge.facts}


def _words(item: Item) -> frozenset[str]:
    return frozenset(word for name in (item.title, *item.said) for word in cut(name) if len(word) >= LEAST_LETTERS)


def _often(known: Iterable[frozenset[str]]) -> dict[str, int]:
    counts: dict[str, int] = {}
    for words in known:
        for word in words:
            counts[word] = counts.get(word, 0) + 1
    return counts


def _shared(typed: list[str], words: frozenset[str], often: Mapping[str, int]) -> float:
    """How much the names have of the words: a word that few items have says more."""
    total = 0.0
    for one in typed:
        likeness = [(_likeness(one, other), other) for other in words]
        best, other = max(likeness, key=lambda pair: (pair[0], pair[1]))
        total += best * log((len(often) + 1) / often[other])
    return round(total, 9)


def _likeness(one: str, other: str) -> float:
    """How much of two words is the same, where no more slips lie between them than are forgiven; else 0."""
    longer = max(len(one), len(other))
    slips = distance(one, other, allowed(longer))
    return 1.0 - slips / longer if slips <= allowed(longer) else 0.0
