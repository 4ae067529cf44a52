"""Whether a folder holds no more than it may."""

from collections.abc import Iterable, Iterator
from itertools import islice

from diagnose.knowledge.layer import Addition, Layer
from diagnose.knowledge.limits import MOST_CASES, MOST_ENTRIES, MOST_SAID, SPLIT
from diagnose.knowledge.model import KINDS, Defect, Item
from diagnose.problems import Collector, Place


def within_limits(layer: Layer, found: Collector) -> bool:
    """Whether a folder holds no more than it may; the first entry past a limit is a problem."""
    past = [*_past(layer), *_said_too_much(layer)]
    for place, what, most in past:
        found.add(place, "too-many-entries", f"more than {most:,} {what} in one folder", hint=SPLIT)
    return not past


def _said_too_much(layer: Layer) -> Iterator[tuple[Place, str, int]]:
    """The place at which the names in a folder come to more words than are indexed in a moment."""
    words = 0
    for place, texts in _said(layer):
        words += sum(len(text.split()) for text in texts)
        if words > MOST_SAID:
            yield place, "words in names", MOST_SAID
            return


def _said(layer: Layer) -> Iterator[tuple[Place, Iterable[str]]]:
    parts: list[Defect | Addition | Item] = [*layer.defects.values(), *layer.additions, *layer.items.values()]
    yield from ((part.place, part.said) for part in parts)
    yield from ((check.place, outcome.said) for check in layer.checks.values() for outcome in check.outcomes)


def _past(layer: Layer) -> Iterator[tuple[Place, str, int]]:
    parts: list[Defect | Addition] = [*layer.defects.values(), *layer.additions]
    cases = [case.place for part in parts for case in part.cases]
    counted: list[tuple[list[Place], str, int]] = [
        (list(layer.nodes), "entries", MOST_ENTRIES),
        (cases, "worked cases", MOST_CASES),
        *(
            ([e.place for e in layer.of(kind.name).values()], kind.called, kind.most)
            for kind in KINDS.values()
            if kind.most
        ),
    ]
    for places, what, most in counted:
        yield from ((place, what, most) for place in islice(places, most, most + 1))
