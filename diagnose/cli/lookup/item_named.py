"""From a person's words to one item, with what to say where they name none. Light to import."""

import sys

from diagnose.cli.terminal.screen import screen_for
from diagnose.knowledge.model import Item, Knowledge
from diagnose.speech.saying import say

STUFF = "item.polyester"  # the fact that tells one cloth from another
# Fibres and skins that no item here is of: a likeness in shape must not lend them another stuff's heat or washing.
FOREIGN = frozenset("bamboo hemp leather linen nylon rayon silk suede viscose wool woollen".split())


def item_named(knowledge: Knowledge, words: str) -> Item | None:
    """The item with this id, the one that goes by these words, else the one they come nearest to; None where there is
    none, or where the nearest is not of the stuff they speak of."""
    if item := knowledge.items.get(words.strip()):
        return item
    from diagnose.reasoning.words import find_item, lexicon

    named = {name.casefold(): item for item in knowledge.items.values() for name in (item.title, *item.said)}
    if item := named.get(words.strip().casefold()):
        return item
    if FOREIGN & set(words.casefold().split()):
        return None
    found = find_item(lexicon(knowledge), words)
    if found is None or STUFF in found.facts:
        return None
    return knowledge.items.get(found.id)


def tell_not_found(words: str) -> None:
    """Say on standard error that no item goes by these words, and where they stand."""
    err = screen_for(sys.stderr)
    err.line(say("no-item-goes-by-that", words=words))
