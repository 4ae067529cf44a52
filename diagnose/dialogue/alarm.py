"""The danger that some words cry out: heard before anything else is."""

from diagnose.knowledge.model import Danger, Knowledge
from diagnose.reasoning.words.dangers import dangers
from diagnose.reasoning.words.spelling import cut


def alarm(knowledge: Knowledge, text: str) -> Danger | None:
    """The most urgent danger that is told of as happening now, None where none is. One that ships is heard by its
    grammar; one of a shop's own where the text is a saying of it, word for word."""
    heard = [knowledge.dangers[each] for each in dangers(text) if each in knowledge.dangers]
    if heard:
        return heard[0]
    words = cut(text)
    return next((each for each in knowledge.dangers.values() if words in map(cut, each.said)), None)
