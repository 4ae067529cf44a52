"""A text read as units of meaning: a word or a fixed phrase, with the features it can be matched by.

A feature is a stem ("pal"), a whole phrase of stems ("second copy"), or a group of everyday words that mean
the same ("#pale"). Features of what was denied ("no ghost") start with "!".
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product
from typing import NamedTuple, TypeAlias

from diagnose.reasoning.words.groups import CONTRAST, NEGATORS, NOT, SKIPPED, Groups, Phrase, key
from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.spelling import BREAKS, Word
from diagnose.reasoning.words.stems import stem

REACH = 3
SAME_GROUP = 0.85
SLIPPED = 0.8
Features: TypeAlias = tuple[tuple[str, float], ...]
Meant: TypeAlias = tuple[str, ...]
NO_GROUPS: Sequence[str] = ()


@dataclass(frozen=True, slots=True)
class Unit:
    """``words``: where it stands (first, last + 1). ``features``: each with how surely it is meant, 0 to 1.
    ``denied``: 1 + the number of the word that denies it, or of the "or" that carries the denial on; 0 if none."""

    words: tuple[int, int]
    clause: int
    features: Features
    denied: int = 0


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
        clause, meant, clauses = 0, [], []
        for word in words:
            if word in BREAKS:
                clause += 1
            elif word not in SKIPPED:
                meant.append((word,))
                clauses.append(clause)
        found = []
        for place, length, groups, denied in self._runs(meant, clauses):
            run = meant[place : place + length]
            features = _phrase(run, 1.0, groups) if groups else self._of_word(run[0][0])
            found.append(_denied(features) if denied else features)
        return found

    def typed(self, words: Sequence[Word], speller: Speller) -> list[Unit]:
        """The units of what a person typed."""
        tokens = list(_tokens(words, speller))
        meant = [token.meant for token in tokens]
        found = []
        for place, length, groups, denying in self._runs(meant, [token.clause for token in tokens]):
            run = tokens[place : place + length]
            if groups:
                features = _phrase(meant[place : place + length], min(token.surety for token in run), groups)
            else:
                features = self._features(run[0])
            where = run[0].first, run[-1].last + 1
            denied = tokens[denying - 1].first + 1 if denying else 0
            found.append(Unit(where, run[0].clause, _denied(features) if denied else features, denied))
        return found

    def _runs(self, meant: Sequence[Meant], clauses: Sequence[int]) -> Iterator[tuple[int, int, Sequence[str], int]]:
        """Where each unit starts, how many words it has, its groups if it is a fixed phrase, and 1 + the place of
        what denies it (0: nothing does). Words without meaning are passed over."""
        plain, phrases, total = self.groups.plain, self.groups.phrases, len(meant)
        place, reach, clause, denying = 0, 0, -1, 0
        while place < total:
            word = meant[place][0]
            if clauses[place] != clause:
                reach, clause = 0, clauses[place]
            if word in CONTRAST:
                reach = 0
            if word == "or" and reach > 0:
                reach, denying = REACH, place + 1
            length, groups = 0, NO_GROUPS
            if place + 1 < total:
                for start in product(meant[place], meant[place + 1]):
                    candidates = phrases.get(f"{key(start[0])} {key(start[1])}")
                    if candidates and not length:
                        length, groups = _longest(candidates, meant, clauses, place)
            if not length and word in NEGATORS:
                reach, denying = REACH, place + 1
            elif groups or not (length or word in plain):
                yield place, length or 1, groups, denying if reach > 0 else 0
                reach -= 1
            place += length or 1

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


def _denied(features: Features) -> Features:
    return tuple((NOT + feature, surety) for feature, surety in features)


def _phrase(run: Sequence[Meant], surety: float, groups: Sequence[str]) -> Features:
    joined = " ".join(key(meant[0]) for meant in run)
    return ((joined, surety), *((group, surety * SAME_GROUP) for group in groups))


def _longest(
    candidates: Sequence[Phrase], meant: Sequence[Meant], clauses: Sequence[int], place: int
) -> tuple[int, Sequence[str]]:
    """The length of the longest fixed phrase that starts here, and its groups (none: it is plain)."""
    length, groups = 0, list[str]()
    for phrase in candidates:
        size = len(phrase.keys)
        if size < length:
            break
        if (size == 2 and not phrase.as_written and clauses[place] == clauses[place + 1]) or _matches(
            phrase, meant, clauses, place
        ):
            length = size
            if phrase.group and phrase.group not in groups:
                groups.append(phrase.group)
    return length, groups


def _matches(phrase: Phrase, meant: Sequence[Meant], clauses: Sequence[int], place: int) -> bool:
    end = place + len(phrase.keys)
    if end > len(meant) or (clauses[end - 1] != clauses[place] and not phrase.spans):
        return False
    for wanted, words in zip(phrase.keys, meant[place:end], strict=True):
        if phrase.as_written:
            if wanted not in words:
                return False
        elif all(key(word) != wanted for word in words):
            return False
    return True


def _tokens(words: Sequence[Word], speller: Speller) -> Iterator[Token]:
    typed = {stem(word.text) for word in words if speller.knows(word.text)}
    place = 0
    while place < len(words):
        word = words[place]
        if speller.knows(word.text):
            if word.text not in SKIPPED:
                yield Token((word.text,), place, place, word.clause)
            place += 1
        else:
            made, used = _mended(words, place, speller, typed)
            yield from (token for token in made if token.meant[0] not in SKIPPED)
            place += used


def _mended(words: Sequence[Word], place: int, speller: Speller, typed: Collection[str]) -> tuple[list[Token], int]:
    """The tokens an unknown word stands for, and how many typed words they use up. It stands for none of the
    words that are typed rightly elsewhere in the text."""
    word = words[place]
    if place + 1 < len(words):
        joined = word.text + words[place + 1].text
        if joined in speller.known:
            return [Token((joined,), place, place + 1, word.clause, SLIPPED)], 2
    meant = [known for known in speller.meant(word.text) if stem(known) not in typed]
    meant = [known for known in meant if known not in NEGATORS] or meant
    if meant:
        return [Token(tuple(meant), place, place, word.clause, SLIPPED)], 1
    parts = speller.split(word.text)
    if parts:
        return [Token((part,), place, place, word.clause, SLIPPED) for part in parts], 1
    return [Token((word.text,), place, place, word.clause)], 1
