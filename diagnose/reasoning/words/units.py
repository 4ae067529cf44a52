"""A text read as units of meaning: a word or a fixed phrase, with the features it can be matched by.

A feature is a stem ("pal"), a whole phrase of stems ("second copy"), or a group of everyday words that mean
the same ("#pale"). Features of what was denied ("no ghost") start with "!".
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.spelling import Word
from diagnose.reasoning.words.stems import stem

NEGATORS = frozenset(
    "not no never without isnt wasnt arent werent aint didnt doesnt dont wont wouldnt cant cannot couldnt "
    "hasnt havent hadnt nor neither none lacks lacking minus".split()
)
SKIPPED = frozenset(
    "a an the it its is my our your his her their this that these those some very so quite really just rather "
    "such been has have had".split()
)
DENIED = "!"
GROUP = "#"
REACH = 3
SAME_GROUP = 0.85
SLIPPED = 0.8


@dataclass(frozen=True, slots=True)
class Unit:
    """``words``: where it stands (first, last + 1). ``features``: each with how surely it is meant, 0 to 1."""

    words: tuple[int, int]
    clause: int
    features: tuple[tuple[str, float], ...]
    denied: bool = False


@dataclass(frozen=True, slots=True)
class Token:
    """The words a typed word may mean (one, unless it was mistyped), and where it was typed."""

    meant: tuple[str, ...]
    first: int
    last: int
    clause: int
    surety: float = 1.0
    plain: bool = False


@dataclass(frozen=True, slots=True)
class Member:
    """A fixed phrase of a group. ``keys``: stems, or whole words where it counts only as written.
    ``spans``: it has a joining word in it, so that it may reach over the end of a clause."""

    keys: tuple[str, ...]
    group: str
    as_written: bool
    spans: bool


@dataclass(frozen=True, slots=True)
class Reader:
    """Turns words into units. ``groups``: stem -> group features. ``phrases``: first key -> members, longest
    first. ``plain``: words without meaning here. ``speller`` is None for texts that are taken as written."""

    groups: Mapping[str, tuple[str, ...]]
    phrases: Mapping[str, Sequence[Member]]
    plain: frozenset[str]
    speller: Speller | None = None
    memo: dict[str, tuple[tuple[str, float], ...]] = field(default_factory=dict)

    def units(self, words: Sequence[Word]) -> list[Unit]:
        """The units of a text, in order."""
        tokens = list(self._tokens(words))
        found: list[Unit] = []
        place, reach, clause = 0, 0, -1
        while place < len(tokens):
            token = tokens[place]
            reach = reach if token.clause == clause else 0
            clause = token.clause
            length, groups = self._fixed_phrase(tokens, place)
            if not length and token.meant[0] in NEGATORS:
                reach = REACH
            elif groups or not (length or token.plain):
                found.append(self._unit(tokens[place : place + max(length, 1)], groups, reach > 0))
                reach -= 1
            place += max(length, 1)
        return found

    def _unit(self, tokens: Sequence[Token], groups: Sequence[str], denied: bool) -> Unit:
        features = self._phrase_features(tokens, groups) if groups else self._features(tokens[0])
        if denied:
            features = tuple((DENIED + feature, surety) for feature, surety in features)
        return Unit((tokens[0].first, tokens[-1].last + 1), tokens[0].clause, features, denied)

    def _phrase_features(self, tokens: Sequence[Token], groups: Sequence[str]) -> tuple[tuple[str, float], ...]:
        surety = min(token.surety for token in tokens)
        joined = " ".join(key(token.meant[0]) for token in tokens)
        return ((joined, surety), *((group, surety * SAME_GROUP) for group in groups))

    def _features(self, token: Token) -> tuple[tuple[str, float], ...]:
        if token.surety == 1.0:
            return self._of_word(token.meant[0])
        best: dict[str, float] = {}
        for word in token.meant:
            for feature, surety in self._of_word(word):
                best[feature] = max(best.get(feature, 0.0), surety * token.surety)
        return tuple(best.items())

    def _of_word(self, word: str) -> tuple[tuple[str, float], ...]:
        features = self.memo.get(word)
        if features is None:
            root = stem(word)
            groups = self.groups.get(root, ())
            features = ((root, 1.0), *((group, SAME_GROUP) for group in groups))
            self.memo[word] = features
        return features

    def _fixed_phrase(self, tokens: Sequence[Token], place: int) -> tuple[int, list[str]]:
        """How many tokens from here on are a fixed phrase, and the groups it belongs to (none: it is plain)."""
        length, groups = 0, list[str]()
        for member in self._candidates(tokens[place]):
            size = len(member.keys)
            if size < length:
                break
            if _matches(member, tokens, place):
                length = size
                if member.group and member.group not in groups:
                    groups.append(member.group)
        return length, groups

    def _candidates(self, token: Token) -> Sequence[Member]:
        if len(token.meant) == 1:
            return self.phrases.get(key(token.meant[0]), ())
        found = {m for word in token.meant for m in self.phrases.get(key(word), ())}
        return sorted(found, key=lambda m: (-len(m.keys), m.group, m.keys))

    def _tokens(self, words: Sequence[Word]) -> Iterator[Token]:
        place = 0
        while place < len(words):
            word = words[place]
            used = 1
            if word.text in self.plain or self.speller is None or word.text in self.speller.known:
                if word.text not in SKIPPED:
                    yield Token((word.text,), place, place, word.clause, 1.0, word.text in self.plain)
            else:
                made, used = self._mended(self.speller, words, place)
                yield from (token for token in made if token.meant[0] not in SKIPPED)
            place += used

    def _mended(self, speller: Speller, words: Sequence[Word], place: int) -> tuple[list[Token], int]:
        """The tokens an unknown word stands for, and how many typed words they use up."""
        word = words[place]
        if place + 1 < len(words) and word.text + words[place + 1].text in speller.known:
            joined = word.text + words[place + 1].text
            return [Token((joined,), place, place + 1, word.clause, SLIPPED, joined in self.plain)], 2
        meant = speller.meant(word.text)
        if meant:
            plain = all(known in self.plain for known in meant)
            return [Token(tuple(meant), place, place, word.clause, SLIPPED, plain)], 1
        parts = speller.split(word.text)
        if parts:
            return [
                Token((part,), place, place, word.clause, SLIPPED, part in self.plain) for part in parts
            ], 1
        return [Token((word.text,), place, place, word.clause)], 1


def key(word: str) -> str:
    """What a word is matched by within a fixed phrase."""
    return DENIED if word in NEGATORS else stem(word)


def _matches(member: Member, tokens: Sequence[Token], place: int) -> bool:
    end = place + len(member.keys)
    if end > len(tokens) or (
        tokens[end - 1].clause != tokens[place].clause and not member.spans
    ):
        return False
    for wanted, token in zip(member.keys, tokens[place:end], strict=True):
        if member.as_written:
            if wanted not in token.meant:
                return False
        elif all(key(word) != wanted for word in token.meant):
            return False
    return True
