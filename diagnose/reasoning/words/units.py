"""A text read as units of meaning: a word or a fixed phrase, with the features it can be matched by.

A feature is a stem ("pal"), a whole phrase of stems ("second copy"), or a group of everyday words that mean
the same ("#pale"). Features of what was denied ("no ghost") start with "!".
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple, TypeAlias

from diagnose.reasoning.words.groups import CONTRAST, NEGATORS, NOT, SKIPPED, Groups, Phrase, key
from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.spelling import BREAKS, Word
from diagnose.reasoning.words.stems import stem

REACH = 3
SAME_GROUP = 0.85
SLIPPED = 0.8
Features: TypeAlias = tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class Unit:
    """``words``: where it stands (first, last + 1). ``features``: each with how surely it is meant, 0 to 1."""

    words: tuple[int, int]
    clause: int
    features: Features
    denied: bool = False


class Token(NamedTuple):
    """The words a typed word may mean (one, unless it was mistyped), and where it was typed."""

    meant: tuple[str, ...]
    first: int
    last: int
    clause: int
    surety: float = 1.0


@dataclass(frozen=True, slots=True)
class Reader:
    """Reads names as they are written, and a person's words with typing errors forgiven."""

    groups: Groups
    memo: dict[str, Features] = field(default_factory=dict)

    def name(self, words: Sequence[str]) -> list[Features]:
        """The features of each unit of a name."""
        clause, tokens = 0, []
        for word in words:
            if word in BREAKS:
                clause += 1
            elif word not in SKIPPED:
                tokens.append(Token((word,), 0, 0, clause))
        return [unit.features for unit in self._units(tokens)]

    def typed(self, words: Sequence[Word], speller: Speller) -> list[Unit]:
        """The units of what a person typed."""
        return list(self._units(list(_tokens(words, speller))))

    def _units(self, tokens: Sequence[Token]) -> Iterator[Unit]:
        place, reach, clause = 0, 0, -1
        while place < len(tokens):
            token = tokens[place]
            if token.clause != clause:
                reach, clause = 0, token.clause
            if token.meant[0] in CONTRAST:
                reach = 0
            length, groups = self._fixed_phrase(tokens, place)
            if not length and token.meant[0] in NEGATORS:
                reach = REACH
            elif groups or not (length or token.meant[0] in self.groups.plain):
                run = tokens[place : place + max(length, 1)]
                features = self._phrase_features(run, groups) if groups else self._features(token)
                if reach > 0:
                    features = tuple((NOT + feature, surety) for feature, surety in features)
                yield Unit((token.first, run[-1].last + 1), clause, features, reach > 0)
                reach -= 1
            place += max(length, 1)

    def _fixed_phrase(self, tokens: Sequence[Token], place: int) -> tuple[int, list[str]]:
        """How many tokens from here on are a fixed phrase, and the groups it belongs to (none: it is plain)."""
        length, groups = 0, list[str]()
        if place + 1 == len(tokens):
            return length, groups
        for first in tokens[place].meant:
            for second in tokens[place + 1].meant:
                for phrase in self.groups.phrases.get((key(first), key(second)), ()):
                    if len(phrase.keys) < length or not _matches(phrase, tokens, place):
                        continue
                    if len(phrase.keys) > length:
                        length, groups = len(phrase.keys), []
                    if phrase.group and phrase.group not in groups:
                        groups.append(phrase.group)
        return length, groups

    def _phrase_features(self, tokens: Sequence[Token], groups: Sequence[str]) -> Features:
        surety = min(token.surety for token in tokens)
        joined = " ".join(key(token.meant[0]) for token in tokens)
        return ((joined, surety), *((group, surety * SAME_GROUP) for group in groups))

    def _features(self, token: Token) -> Features:
        if token.surety == 1.0:
            return self._of_word(token.meant[0])
        best: dict[str, float] = {}
        for word in token.meant:
            for feature, surety in self._of_word(word):
                best[feature] = max(best.get(feature, 0.0), surety * token.surety)
        return tuple(best.items())

    def _of_word(self, word: str) -> Features:
        features = self.memo.get(word)
        if features is None:
            root = stem(word)
            features = ((root, 1.0), *((group, SAME_GROUP) for group in self.groups.of_stem.get(root, ())))
            self.memo[word] = features
        return features


def _matches(phrase: Phrase, tokens: Sequence[Token], place: int) -> bool:
    end = place + len(phrase.keys)
    if end > len(tokens) or (tokens[end - 1].clause != tokens[place].clause and not phrase.spans):
        return False
    for wanted, token in zip(phrase.keys, tokens[place:end], strict=True):
        if phrase.as_written:
            if wanted not in token.meant:
                return False
        elif all(key(word) != wanted for word in token.meant):
            return False
    return True


def _tokens(words: Sequence[Word], speller: Speller) -> Iterator[Token]:
    place = 0
    while place < len(words):
        word = words[place]
        if word.text in speller.known:
            if word.text not in SKIPPED:
                yield Token((word.text,), place, place, word.clause)
            place += 1
        else:
            made, used = _mended(words, place, speller)
            yield from (token for token in made if token.meant[0] not in SKIPPED)
            place += used


def _mended(words: Sequence[Word], place: int, speller: Speller) -> tuple[list[Token], int]:
    """The tokens an unknown word stands for, and how many typed words they use up."""
    word = words[place]
    if place + 1 < len(words):
        joined = word.text + words[place + 1].text
        if joined in speller.known:
            return [Token((joined,), place, place + 1, word.clause, SLIPPED)], 2
    meant = speller.meant(word.text)
    if meant:
        return [Token(tuple(meant), place, place, word.clause, SLIPPED)], 1
    parts = speller.split(word.text)
    if parts:
        return [Token((part,), place, place, word.clause, SLIPPED) for part in parts], 1
    return [Token((word.text,), place, place, word.clause)], 1
