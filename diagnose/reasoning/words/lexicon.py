"""Everything that words can mean, made ready from what presslore knows."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from diagnose.knowledge.model import Defect, Knowledge
from diagnose.reasoning.words.exact import whole_key, whole_name, whole_names
from diagnose.reasoning.words.groups import Groups
from diagnose.reasoning.words.index import SAID, Index
from diagnose.reasoning.words.names import own_tokens, said_wherever, with_own
from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.spelling import Word, clauses, cut, cut_each
from diagnose.reasoning.words.stems import stem, without_plural
from diagnose.reasoning.words.table import WordLayer, table
from diagnose.reasoning.words.tokens import Spelt, tokens
from diagnose.reasoning.words.units import Reader, Unit

Named = tuple[int, float, str]


@dataclass(frozen=True, slots=True)
class Lexicon:
    """``reader`` reads words with all they may stand for, ``literal`` as they are. ``items``: the index of items.
    ``names``: the whole names of each defect. ``sights`` and ``answers``: what each word speaks for, with what a shop
    has of its own; ``said``: the names that count wherever they stand, word for word."""

    knowledge: Knowledge
    reader: Reader
    literal: Reader
    speller: Speller
    items: Index
    names: Sequence[str]
    sights: WordLayer
    answers: WordLayer
    said: Mapping[str, Sequence[str]]
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
        return "" if owner is None else list(self.knowledge.defects)[owner]

    def units(self, text: str) -> list[Unit]:
        """The units of a text as it was taken."""
        return self.reader.typed(clauses(text), self.speller)

    def tokens(self, words: Sequence[Word], units: Sequence[Unit]) -> list[Spelt]:
        """The tokens of words, of which the reader has made units."""
        return tokens(words, units, self.speller)

    def literal_units(self, text: str) -> list[Unit]:
        """The units of a text as it was taken, each word standing for itself alone."""
        return self.literal.typed(clauses(text), self.speller)


def build(knowledge: Knowledge) -> Lexicon:
    """The lexicon of everything that is known, made from nothing else but the table that ships."""
    ships = table()
    groups = Groups.of(knowledge.words.values())
    reader, literal = Reader(groups), Reader(Groups.of(group for group in knowledge.words.values() if group.plain))
    seen, items, told = _defect_names(knowledge), _item_names(knowledge), _answer_names(knowledge)
    cuts = [cut_each(text for _, text in named) for named in (seen, told)]
    item_cuts = cut_each(text for _, _, text in items)
    others = cut_each(_other_words(knowledge))
    known = groups.words.union(ships.words, *(words for each in (*cuts, item_cuts, others) for words in each))
    speller = Speller.of(known)
    numbers = {name: number for number, name in enumerate(knowledge.defects)}
    whole = [(numbers[name], words) for (name, _), words in zip(seen, cuts[0], strict=True)]
    said = [[(told, own_tokens(reader, speller, text)) for told, text in named] for named in (seen, told)]
    return Lexicon(
        knowledge=knowledge,
        reader=reader,
        literal=literal,
        speller=speller,
        items=_indexed(literal, list(knowledge.items), items, item_cuts),
        names=whole_names(len(numbers), [*((number, cut(name)) for name, number in numbers.items()), *whole]),
        sights=with_own(ships.sights, said[0]),
        answers=with_own(ships.answers, said[1]),
        said=said_wherever([*said[0], *said[1]]),
    )


def texts(knowledge: Knowledge) -> list[str]:
    """Every text that a lexicon is made from, in an order that tells what each is."""
    found = list[str]()
    for telling, name in (*_defect_names(knowledge), *_answer_names(knowledge)):
        found += ["\t", telling, name]
    for item in knowledge.items.values():
        found += ["\t", item.id, item.title, *item.said]
    for group in knowledge.words.values():
        found += ["\t", group.id, str(group.plain), *group.members, "\t", *group.as_written]
    return [*found, "\t", *knowledge.defects, "\t", *_other_words(knowledge)]


def _defect_names(knowledge: Knowledge) -> list[tuple[str, str]]:
    return [(defect.id, text) for defect in knowledge.defects.values() for text in _names(knowledge, defect)]


def _names(knowledge: Knowledge, defect: Defect) -> tuple[str, ...]:
    """The title of a defect, what is said of it, and a shop's own ways of saying it."""
    return (defect.title, *defect.said, *knowledge.heard.get(f"defect {defect.id}", ()))


def _item_names(knowledge: Knowledge) -> list[Named]:
    return [
        (number, SAID, name)
        for number, item in enumerate(knowledge.items.values())
        for name in (item.title, *item.said)
    ]


def _answer_names(knowledge: Knowledge) -> list[tuple[str, str]]:
    """The names of the outcomes ("check outcome") and of the causes ("cause ID")."""
    outcomes = [
        (f"{check.id} {outcome.id}", text)
        for check in knowledge.checks.values()
        for outcome in check.outcomes
        for text in (outcome.looks, *outcome.said, *knowledge.heard.get(f"answer {check.id} {outcome.id}", ()))
    ]
    causes = [(f"cause {name}", text) for name in knowledge.causes for text in knowledge.heard.get(f"cause {name}", ())]
    return outcomes + causes


def _other_words(knowledge: Knowledge) -> list[str]:
    """Texts whose words are no typing errors."""
    asked = [text for check in knowledge.checks.values() for text in (check.title, check.asks)]
    return asked + [name for fact in knowledge.facts.values() for names in fact.words.values() for name in names]


def _indexed(reader: Reader, owners: Sequence[str], named: Iterable[Named], cuts: Iterable[Sequence[str]]) -> Index:
    return Index.of(
        owners,
        ((owner, weight, reader.name(words)) for (owner, weight, _), words in zip(named, cuts, strict=True)),
    )
