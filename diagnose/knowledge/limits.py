"""How much one folder of knowledge may hold. What ships takes less than half of any of it; within the limits a check of
the whole folder ends within some ten seconds, whoever wrote it."""

from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Final

from diagnose.knowledge.layer import Addition, Layer, called
from diagnose.knowledge.model import Defect, Item
from diagnose.problems import Collector, Place

MOST_FILES: Final = 1_000
MOST_FILE_BYTES: Final = 2_000_000
MOST_BYTES: Final = 10_000_000  # all files of a folder together
MOST_VALUES: Final = 100_000  # texts, numbers, lists and mappings in all files of a folder
MOST_ENTRIES: Final = 4_000  # causes, checks, rules, worked cases and all others together
MOST_DEFECTS: Final = 200  # for each of which a step is planned
MOST_CASES: Final = 600  # worked cases, each of which is worked through
MOST_LINES: Final = 200  # of handling, each of which is held against each item
MOST_SAID: Final = 200_000  # words of all names and sentences that people's words are held against
MOST_LOOKING: Final = (
    5_000_000_000  # words that call for cautions times letters of the steps in which they are looked for
)
RULES_FOR_ONE_CAUSE: Final = 40  # that lead to one defect, and are held against each other
SPLIT: Final = "leave out what is not needed, or split it into two shops"


def within_limits(layer: Layer, found: Collector) -> bool:
    """Whether a folder holds no more than it may; the first entry past a limit is a problem."""
    past = [*_past(layer), *_said_too_much(layer)]
    for place, what, most in past:
        found.add(place, "too-many-entries", f"more than {most:,} {what} in one folder", hint=SPLIT)
    return not past


def _said_too_much(layer: Layer) -> Iterator[tuple[Place, str, int]]:
    """The place at which the names and sentences of a folder come to more words than are indexed in a moment."""
    words = 0
    for place, texts in _said(layer):
        words += sum(len(text.split()) for text in texts)
        if words > MOST_SAID:
            yield place, "words in names and sentences", MOST_SAID
            return


def _said(layer: Layer) -> Iterator[tuple[Place, Iterable[str]]]:
    parts: list[Defect | Addition | Item] = [*layer.defects.values(), *layer.additions, *layer.items.values()]
    yield from ((part.place, part.said) for part in parts)
    yield from ((check.place, outcome.said) for check in layer.checks.values() for outcome in check.outcomes)
    places = dict(layer.heard_at)
    yield from ((places[defect], sentences) for defect, sentences in layer.heard.items() if defect in places)


def _past(layer: Layer) -> Iterator[tuple[Place, str, int]]:
    parts: list[Defect | Addition] = [*layer.defects.values(), *layer.additions]
    cases = [case.place for part in parts for case in part.cases]
    defects = [defect.place for defect in layer.defects.values()]
    handling = [line.place for line in layer.handling.values()]
    counted = (
        (list(layer.nodes), "entries", MOST_ENTRIES),
        (cases, "worked cases", MOST_CASES),
        (defects, "defects", MOST_DEFECTS),
        (handling, called("handling"), MOST_LINES),
    )
    for places, what, most in counted:
        yield from ((place, what, most) for place in islice(places, most, most + 1))
