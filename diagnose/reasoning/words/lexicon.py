"""Everything that words can mean, made ready once from what presslore knows."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from diagnose.knowledge.model import Defect, Knowledge, WordGroup
from diagnose.reasoning.words.index import Index
from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.spelling import Word, clauses, cut
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.units import GROUP, NEGATORS, SKIPPED, Member, Reader, Unit, key


@dataclass(frozen=True, slots=True)
class Lexicon:
    """``reader`` forgives typing errors. One index each for defects, items and outcomes ("check outcome")."""

    reader: Reader
    defects: Index
    items: Index
    outcomes: Index
    knowledge: Knowledge


def lexicon(knowledge: Knowledge) -> Lexicon:
    """The lexicon of everything that is known: build it once, then ask it as often as you like."""
    known: set[str] = set(NEGATORS)
    synonyms = {name: group for name, group in knowledge.words.items() if name not in knowledge.defects}
    reader = _reader(synonyms, known)

    def read(text: str) -> list[Unit]:
        words = cut(text)
        known.update(words)
        return reader.units([Word(word, 0) for word in words])

    defects = Index.of(
        [
            (d.id, [read(name) for name in _names(knowledge, d)], read(d.looks))
            for d in knowledge.defects.values()
        ]
    )
    items = Index.of([(i.id, [read(i.title), *map(read, i.said)], []) for i in knowledge.items.values()])
    outcomes = Index.of(
        [
            (f"{check.id} {outcome.id}", [read(outcome.looks), *map(read, outcome.said)], [])
            for check in knowledge.checks.values()
            for outcome in check.outcomes
        ]
    )
    for fact in knowledge.facts.values():
        for names in fact.words.values():
            for name in names:
                known.update(cut(name))
    forgiving = Reader(reader.groups, reader.phrases, reader.plain, Speller.of(known), reader.memo)
    return Lexicon(forgiving, defects, items, outcomes, knowledge)


def _names(knowledge: Knowledge, defect: Defect) -> tuple[str, ...]:
    """The title of a defect, what is said of it, and the group of words that carries its id, if there is one."""
    further = knowledge.words.get(defect.id)
    return (defect.title, *defect.said, *(further.members if further else ()))


def units_of(lexicon: Lexicon, text: str) -> list[Unit]:
    """The units of what a person typed."""
    return lexicon.reader.units(clauses(text))


def _reader(words: Mapping[str, WordGroup], known: set[str]) -> Reader:
    """The reader of the groups of words; every word met on the way is added to ``known``."""
    groups: dict[str, tuple[str, ...]] = {}
    plain: set[str] = set()
    phrases: list[Member] = []
    for group in words.values():
        if group.plain:
            plain.update(member for member in group.members if " " not in member)
    for group in words.values():
        name = "" if group.plain else GROUP + group.id
        for member, as_written in (*_each(group.members, False), *_each(group.as_written, True)):
            parts = [part for part in cut(member) if part not in SKIPPED]
            known.update(parts)
            if len(parts) > 1 or as_written:
                keys = tuple(part if as_written else key(part) for part in parts)
                phrases.append(Member(keys, name, as_written, len(cut(member)) < len(member.split())))
            elif parts and name not in groups.get(stem(parts[0]), ()):
                groups[stem(parts[0])] = (*groups.get(stem(parts[0]), ()), name)
    known.update(plain)
    return Reader(groups, _by_first_key(phrases), frozenset(plain))


def _each(members: Iterable[str], as_written: bool) -> list[tuple[str, bool]]:
    return [(member, as_written) for member in members]


def _by_first_key(phrases: list[Member]) -> dict[str, list[Member]]:
    """Members by the key they start with, the longest first."""
    by: dict[str, list[Member]] = {}
    for member in sorted(phrases, key=lambda m: (-len(m.keys), m.group, m.keys)):
        first = key(member.keys[0]) if member.as_written else member.keys[0]
        by.setdefault(first, []).append(member)
    return by
