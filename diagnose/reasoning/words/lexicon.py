"""Everything that words can mean, made ready once from what presslore knows."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from diagnose.knowledge.model import Defect, Knowledge
from diagnose.reasoning.words.groups import Groups
from diagnose.reasoning.words.index import LOOKS, SAID, Index
from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.spelling import clauses, cut_each
from diagnose.reasoning.words.units import Reader, Unit

Named = tuple[int, float, str]


@dataclass(frozen=True, slots=True)
class Lexicon:
    """The indexes of defects, items and outcomes; those of the last two are made when first wanted. ``reader``
    reads words with all they may stand for, ``literal`` as they are."""

    knowledge: Knowledge
    reader: Reader
    literal: Reader
    speller: Speller
    defects: Index
    _later: dict[str, Index] = field(default_factory=dict)

    @property
    def items(self) -> Index:
        """The names of items."""
        if "items" not in self._later:
            self._later["items"] = _index(self.literal, list(self.knowledge.items), _item_names(self.knowledge))
        return self._later["items"]

    @property
    def outcomes(self) -> Index:
        """The names of outcomes of checks. An owner is "check outcome"."""
        if "outcomes" not in self._later:
            owners = [f"{c.id} {o.id}" for c in self.knowledge.checks.values() for o in c.outcomes]
            self._later["outcomes"] = _index(self.reader, owners, _outcome_names(self.knowledge))
        return self._later["outcomes"]

    def units(self, text: str) -> list[Unit]:
        """The units of what a person typed."""
        return self.reader.typed(clauses(text), self.speller)

    def literal_units(self, text: str) -> list[Unit]:
        """The units of what a person typed, each word standing for itself alone."""
        return self.literal.typed(clauses(text), self.speller)


def lexicon(knowledge: Knowledge) -> Lexicon:
    """The lexicon of everything that is known: build it once, then ask it as often as you like."""
    groups = Groups.of(group for name, group in knowledge.words.items() if name not in knowledge.defects)
    reader, literal = Reader(groups), Reader(Groups.of(group for group in knowledge.words.values() if group.plain))
    named = [
        (number, weight, text)
        for number, defect in enumerate(knowledge.defects.values())
        for weight, texts in ((SAID, _names(knowledge, defect)), (LOOKS, (defect.looks,)))
        for text in texts
    ]
    cuts = cut_each(text for _, _, text in named)
    further = cut_each(
        [text for _, _, text in (*_item_names(knowledge), *_outcome_names(knowledge))]
        + [name for fact in knowledge.facts.values() for names in fact.words.values() for name in names]
    )
    known = groups.words.union(*cuts, *further)
    defects = _indexed(reader, list(knowledge.defects), named, cuts)
    return Lexicon(knowledge, reader, literal, Speller.of(known), defects)


def _names(knowledge: Knowledge, defect: Defect) -> tuple[str, ...]:
    """The title of a defect, what is said of it, and the group of words that carries its id, if there is one."""
    further = knowledge.words.get(defect.id)
    return (defect.title, *defect.said, *(further.members if further else ()))


def _item_names(knowledge: Knowledge) -> list[Named]:
    return [
        (number, SAID, name)
        for number, item in enumerate(knowledge.items.values())
        for name in (item.title, *item.said)
    ]


def _outcome_names(knowledge: Knowledge) -> list[Named]:
    outcomes = [outcome for check in knowledge.checks.values() for outcome in check.outcomes]
    return [(number, SAID, name) for number, outcome in enumerate(outcomes) for name in (outcome.looks, *outcome.said)]


def _index(reader: Reader, owners: Sequence[str], named: Sequence[Named]) -> Index:
    return _indexed(reader, owners, named, cut_each(text for _, _, text in named))


def _indexed(reader: Reader, owners: Sequence[str], named: Iterable[Named], cuts: Iterable[Sequence[str]]) -> Index:
    return Index.of(
        owners,
        ((owner, weight, reader.name(words)) for (owner, weight, _), words in zip(named, cuts, strict=True)),
    )
