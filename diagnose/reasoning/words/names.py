"""Names that count wherever they stand, and what a shop has of its own, which the table knows nothing of."""

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.spelling import clauses, taken
from diagnose.reasoning.words.table import WordLayer
from diagnose.reasoning.words.tokens import A_FIGURE, Spelt, pair, tokens
from diagnose.reasoning.words.units import Reader

LONGEST = 8  # tokens of a name that is looked for within a text
OF_CHANCE = 3.0  # ways of saying that chance is given, as in the table
EVERYWHERE, RARE = 0.02, 0.0005  # how often any way of saying holds a feature that speaks for every class, or for none
MOST = 6.0
OWN_BIAS = -1.5  # what is a shop's own comes up less often than what is not

Named = tuple[str, Sequence[Spelt]]


def own_tokens(reader: Reader, speller: Speller, text: str) -> list[Spelt]:
    """The tokens of a name."""
    words = clauses(taken(text))
    return tokens(words, reader.typed(words, speller), speller)


def said_wherever(named: Iterable[Named]) -> dict[str, Sequence[str]]:
    """What each name tells, by its keys in a row."""
    found: dict[str, dict[str, None]] = {}
    for told, name in named:
        if 0 < len(name) <= LONGEST:
            found.setdefault(keys(name), {})[told] = None
    return {name: tuple(told) for name, told in found.items()}


def keys(name: Sequence[Spelt]) -> str:
    """What a run of tokens is known by as a name."""
    return " ".join(token.key for token in name)


def with_own(layer: WordLayer, named: Sequence[Named]) -> WordLayer:
    """The layer with what it does not hold: classes of a shop's own, weighed by the names they go by."""
    held = set(layer.classes)
    mine = [(told, name) for told, name in named if told not in held]
    if not mine:
        return layer
    new = list(dict.fromkeys(told for told, _ in mine))
    extra: dict[str, dict[int, float]] = {}
    for number, told in enumerate(new, len(layer.classes)):
        names = [name for each, name in mine if each == told]
        counts = Counter(feature for name in names for feature in set(_features(name)))
        for feature, count in counts.items():
            share = RARE + EVERYWHERE * min(1.0, len(layer.row(feature)[1]) / len(layer.classes))
            weight = math.log((count + OF_CHANCE * share) / ((len(names) + OF_CHANCE) * share))
            extra.setdefault(feature, {})[number] = round(min(MOST, max(0.0, weight)) / layer.step) * layer.step
    bias = [*layer.bias, *(OWN_BIAS for _ in new)]
    return replace(layer, classes=[*layer.classes, *new], bias=bias, extra=extra, _read={})


def _features(name: Sequence[Spelt]) -> list[str]:
    paired = [pair(one, other) for one, other in pairwise(name)]
    return [*(feature for token in name for feature in token.features if token.key != A_FIGURE), *filter(None, paired)]
