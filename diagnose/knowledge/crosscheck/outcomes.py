"""Checks of checks and of measured figures: do they tell causes apart, do chances add up, does no figure turn back?"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import pairwise

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer

ROUNDING = 1e-9


def checks_that_tell_nothing(layer: Layer) -> Iterator[Found]:
    """No outcome shows anything, or all but the quiet one show exactly the same; unless it asks for a fact of the
    job."""
    for check in (each for each in layer.checks.values() if not each.asks_for):
        later = check.outcomes[1:]
        place = layer.key_within(check.place, "outcomes")
        if not any(chance.value for outcome in later for chance in outcome.shows.values()):
            yield Found(
                place,
                f'"{check.id}" tells nothing apart: no outcome shows a cause',
                hint="name causes under `shows`, or leave the check out",
            )
        elif len(later) > 1 and all(outcome.shows == later[0].shows for outcome in later):
            yield Found(
                place,
                f'"{check.id}" tells nothing apart: its outcomes all show the same',
                hint="join the outcomes into one, or change what they show",
            )


def chances_above_one(layer: Layer) -> Iterator[Found]:
    """Over the outcomes of a check, a cause's chances cannot come to more than 1."""
    for check in layer.checks.values():
        sums: dict[str, float] = defaultdict(float)
        last: dict[str, str] = {}
        for outcome in check.outcomes:
            for cause, chance in outcome.shows.items():
                sums[cause] += chance.value
                last[cause] = outcome.id
        for cause, total in sums.items():
            if total > 1 + ROUNDING:
                yield Found(
                    layer.key_within(check.place, "outcomes", last[cause], "shows", cause),
                    f'"{cause}" shows with a sum of {total:.3g} over the outcomes',
                    "at most 1",
                )


def loud_quiet_outcomes(layer: Layer) -> Iterator[Found]:
    """The first outcome is what shows when none of the causes is there, so it shows nothing itself."""
    for check in layer.checks.values():
        for quiet in check.outcomes[:1]:
            node = layer.nodes[check.place]
            for key in ("shows", "otherwise"):
                path = ("outcomes", quiet.id, key)
                if (*node.path, *path) in node.document.values:
                    yield Found(
                        layer.key_within(check.place, *path),
                        f'the first outcome has "{key}"',
                        "the quiet outcome first, without it",
                        "put the outcomes into another order",
                    )


def outcomes_without_otherwise(layer: Layer) -> Iterator[Found]:
    """Every outcome but the first must say how often it shows with none of the causes, where there are any."""
    for check in (each for each in layer.checks.values() if not each.asks_for):
        for outcome in check.outcomes[1:]:
            node = layer.nodes[check.place]
            if (*node.path, "outcomes", outcome.id, "otherwise") not in node.document.values:
                yield Found(
                    layer.key_within(check.place, "outcomes", outcome.id),
                    f'the outcome "{outcome.id}" has no "otherwise"',
                    "a chance, such as very rarely",
                )


def readings_that_turn_back(layer: Layer) -> Iterator[Found]:
    """The further out a figure lies, the more it must speak for its cause, or at least as much."""
    for measure in layer.readings.values():
        for cause, speaks in measure.speaks.items():
            edges = [speaks.out(mark.at) for mark in speaks.marks]
            wrong = _turned(edges, speaks.bands)
            if wrong:
                place = layer.key_within(measure.place, "speaks", cause)
                yield Found(place, *wrong)


def _turned(edges: list[float], bands: Sequence[tuple[float, float]]) -> tuple[str, str] | None:
    """What is wrong with some marks, and what was expected; None where nothing is."""
    if any(two <= one for one, two in pairwise(edges)):
        return "marks that do not lead outward", "each mark further out than the one before"
    if any(part < -ROUNDING for band in bands for part in band):
        return "a mark that more figures reach than the one before it", "the further out, the fewer"
    held = [band for band in bands if max(band) > ROUNDING]
    if any(two[0] * one[1] < one[0] * two[1] - ROUNDING for one, two in pairwise(held)):
        return "a figure further out that speaks less", "the further out, the more it speaks, or as much"
    return None


def readings_that_tell_nothing(layer: Layer) -> Iterator[Found]:
    """A figure that looks the same with and without a cause does not speak of it."""
    for measure in layer.readings.values():
        for cause, speaks in measure.speaks.items():
            if all(mark.there.value == mark.otherwise.value for mark in speaks.marks):
                place = layer.key_within(measure.place, "speaks", cause)
                wrong = f'"{measure.id}" looks the same with "{cause}" and without it'
                yield Found(place, wrong, hint="leave it out, or say what differs")
