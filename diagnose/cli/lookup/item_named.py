"""From a person's words to the goods they name, with what to say where they name none. Light to import."""

import sys
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from diagnose.cli.asking import alarms
from diagnose.cli.terminal.screen import screen_for
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import Item, Knowledge, Refused
from diagnose.knowledge.preparing import Statement
from diagnose.speech.saying import say

STUFF = "item.polyester"  # the fact that tells one cloth from another


@dataclass(frozen=True, slots=True)
class NamedGoods:
    """The item that words name (None: none), what they say of it beyond its usual facts, and the stuff they speak of
    where it is one that no print takes to."""

    item: Item | None = None
    facts: Mapping[str, FactValue] = field(default_factory=dict)
    refused: Refused | None = None

    @property
    def as_listed(self) -> Item | None:
        """The item, unless the words speak of another stuff than its own: a likeness in shape must not lend them its
        heat or its washing."""
        return None if STUFF in self.facts else self.item


def goods_named(knowledge: Knowledge, words: str) -> NamedGoods:
    """The goods that some words, or an id, name. Ends the command where they cry out a danger."""
    if item := knowledge.items.get(words.strip()):
        return NamedGoods(item)
    alarms.stop_for(knowledge, (words,))
    from diagnose.reasoning.words import find_item, lexicon

    found = find_item(lexicon(knowledge), words)
    if found is None:
        return NamedGoods()
    return NamedGoods(knowledge.items.get(found.id), found.facts, knowledge.refused.get(found.refused))


def tell_barred(knowledge: Knowledge, goods: NamedGoods, against: Iterable[Statement]) -> None:
    """Say on standard error that such goods are not pressed, and why."""
    from diagnose.speech.heard import goods as words

    assert goods.item is not None
    err = screen_for(sys.stderr)
    err.line(words(knowledge, goods.item.id, goods.facts), "title")
    for statement in against:
        err.hang("!", say("not-pressed", why=statement.why, do=statement.do), style="bad")


def tell_not_found(words: str, refused: Refused | None = None) -> None:
    """Say on standard error that the goods are refused, or that no item goes by these words, and where they stand."""
    err = screen_for(sys.stderr)
    if refused:
        from diagnose.speech.titles import refusal

        err.line(refusal(refused))
    else:
        err.line(say("no-item-goes-by-that", words=words))
