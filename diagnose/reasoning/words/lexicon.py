"""Everything that words can mean, made ready from what presslore knows."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from diagnose.knowledge.model import Defect, Knowledge
from diagnose.knowledge.ways import seen
from diagnose.reasoning.words.exact import whole_key, whole_name, whole_names
from diagnose.reasoning.words.groups import Groups
from diagnose.reasoning.words.index import LOOKS, SAID, Index
from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.spelling import clauses, cut, cut_each
from diagnose.reasoning.words.stems import stem, without_plural
from diagnose.reasoning.words.units import Reader, Unit

Named = tuple[int, float, str]


@dataclass(frozen=True, slots=True)
class Lexicon:
    """The indexes of defects, items and outcomes (an owner of which is "check outcome"). ``reader`` reads words with
    all they may stand for, ``literal`` as they are. ``names``: the whole names of each defect."""

    knowledge: Knowledge
    reader: Reader
    literal: Reader
    speller: Speller
    defects: Index
    items: Index
    outcomes: Index
    names: Sequence[str]
    _item_names: dict[str, str] = field(default_factory=dict)
    _joined: dict[str, str] = field(default_factory=dict)
    _item_words: set[str] = field(default_factory=set)
    _stuffs: dict[str, str] = field(default_factory=dict)
    _stuff_stems: set[str] = field(default_factory=set)

    @property
    def item_names(self) -> Mapping[str, str]:
        """The items by what their whole names are known by."""
        if not self._item_names:
            for item in self.knowledge.items.values():
                for name in (item.id, item.title, *item.said):
                    self._item_names.setdefault(whole_key(name), item.id)
        return self._item_names

    def refused(self, word: str) -> str:
        """The id of the stuff that goes by a word, or its plural, and is refused; "" for any other word."""
        if not self._stuffs:
            self._stuffs.update((each, stuff.id) for stuff in self.knowledge.refused.values() for each in stuff.said)
        return self._stuffs.get(without_plural(word), "")

    def is_refused(self, feature: str) -> bool:
        """Whether a feature of a unit is a word that a refused stuff goes by, or its stem."""
        if not self._stuff_stems:
            words = [word for stuff in self.knowledge.refused.values() for word in stuff.said]
            self._stuff_stems.update(words, map(stem, words))
        return feature in self._stuff_stems

    @property
    def joined_item_names(self) -> Mapping[str, str]:
        """The same without blanks."""
        if not self._joined:
            for name, item in self.item_names.items():
                self._joined.setdefault(name.replace(" ", ""), item)
        return self._joined

    def is_item_word(self, word: str) -> bool:
        """Whether a word, or its plural, is part of the name of an item."""
        if not self._item_words:
            self._item_words.update(word for name in self.item_names for word in name.split())
        return without_plural(word) in self._item_words

    def whole(self, text: str) -> str:
        """The id of the defect that a text, as it was taken, is a name of, word for word; "" where it is none."""
        owner = whole_name(self.names, text)
        return "" if owner is None else self.defects.owners[owner]

    def units(self, text: str) -> list[Unit]:
        """The units of a text as it was taken."""
        return self.reader.typed(clauses(text), self.speller)

    def literal_units(self, text: str) -> list[Unit]:
        """The units of a text as it was taken, each word standing for itself alone."""
        return self.literal.typed(clauses(text), self.speller)


def build(knowledge: Knowledge) -> Lexicon:
    """The lexicon of everything that is known, made from nothing else."""
    groups = Groups.of(group for name, group in knowledge.words.items() if name not in knowledge.defects)
    reader, literal = Reader(groups), Reader(Groups.of(group for group in knowledge.words.values() if group.plain))
    defects, items, outcomes = _defect_names(knowledge), _item_names(knowledge), _outcome_names(knowledge)
    cuts = [cut_each(text for _, _, text in named) for named in (defects, items, outcomes)]
    known = groups.words.union(*(words for each in cuts for words in each), *cut_each(_other_words(knowledge)))
    whole = [(number, words) for (number, weight, _), words in zip(defects, cuts[0], strict=True) if weight == SAID]
    ids = [(number, cut(name)) for number, name in enumerate(knowledge.defects)]
    return Lexicon(
        knowledge=knowledge,
        reader=reader,
        literal=literal,
        speller=Speller.of(known),
        defects=_indexed(reader, list(knowledge.defects), defects, cuts[0]),
        items=_indexed(literal, list(knowledge.items), items, cuts[1]),
        outcomes=_indexed(reader, _outcome_ids(knowledge), outcomes, cuts[2]),
        names=whole_names(len(ids), [*ids, *whole]),
    )


def texts(knowledge: Knowledge) -> list[str]:
    """Every text that a lexicon is made from, in an order that tells what each is."""
    found: list[str] = []
    for defect in knowledge.defects.values():
        found += ["\t", defect.id, defect.looks, *_names(knowledge, defect)]
    for item in knowledge.items.values():
        found += ["\t", item.id, item.title, *item.said]
    for check in knowledge.checks.values():
        found += ["\t", check.id, check.title, check.asks]
        for outcome in check.outcomes:
            found += ["\t", outcome.id, outcome.looks, *outcome.said]
    for group in knowledge.words.values():
        found += ["\t", group.id, str(group.plain), *group.members, "\t", *group.as_written]
    for fact in knowledge.facts.values():
        found += ["\t", *(name for names in fact.words.values() for name in names)]
    return found


def _defect_names(knowledge: Knowledge) -> list[Named]:
    return [
        (number, weight, text)
        for number, defect in enumerate(knowledge.defects.values())
        for weight, names in ((SAID, _names(knowledge, defect)), (LOOKS, (defect.looks,)))
        for text in names
    ]


def _names(knowledge: Knowledge, defect: Defect) -> tuple[str, ...]:
    """The title of a defect, what is said of it, and the shop's own ways of saying it."""
    return (defect.title, *defect.said, *knowledge.heard.get(seen(defect.id), ()))


def _item_names(knowledge: Knowledge) -> list[Named]:
    return [
        (number, SAID, name)
        for number, item in enumerate(knowledge.items.values())
        for name in (item.title, *item.said)
    ]


def _outcome_ids(knowledge: Knowledge) -> list[str]:
    return [f"{check.id} {outcome.id}" for check in knowledge.checks.values() for outcome in check.outcomes]


def _outcome_names(knowledge: Knowledge) -> list[Named]:
    outcomes = [outcome for check in knowledge.checks.values() for outcome in check.outcomes]
    return [(number, SAID, name) for number, outcome in enumerate(outcomes) for name in (outcome.looks, *outcome.said)]


def _other_words(knowledge: Knowledge) -> list[str]:
    """Texts whose words are no typing errors."""
    asked = [text for check in knowledge.checks.values() for text in (check.title, check.asks)]
    return asked + [name for fact in knowledge.facts.values() for names in fact.words.values() for name in names]


def _indexed(reader: Reader, owners: Sequence[str], named: Iterable[Named], cuts: Iterable[Sequence[str]]) -> Index:
    return Index.of(
        owners,
        ((owner, weight, reader.name(words)) for (owner, weight, _), words in zip(named, cuts, strict=True)),
    )
