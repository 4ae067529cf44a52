"""Checks of what words entail: nothing entails itself, nor two answers to one check."""

from collections.abc import Iterator

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.ways import answer, entailed, entails, seen
from diagnose.problems import Place


def circles(layer: Layer) -> Iterator[Found]:
    """What entails itself, outright or by way of others."""
    for telling, place in _entailing(layer):
        if telling in entailed(layer, entails(layer, telling)):
            yield Found(
                place, f'"{telling}" entails itself', "of two things the one that follows, not each from the other"
            )


def answers_at_odds(layer: Layer) -> Iterator[Found]:
    """A check has one outcome."""
    for telling, place in _entailing(layer):
        told: dict[str, str] = {}
        for each in entailed(layer, [telling]):
            kind, name, *_ = each.split()
            if kind == "answer" and (other := told.setdefault(name, each)) != each:
                yield Found(place, f'"{telling}" entails "{other}" and "{each}"', "one outcome of each check")
                break


def _entailing(layer: Layer) -> Iterator[tuple[str, Place]]:
    """Whatever entails something, and where that stands."""
    for defect in layer.defects.values():
        if defect.also_saw or defect.also_answers:
            yield seen(defect.id), layer.key_within(defect.place, "also")
    for check in layer.checks.values():
        for outcome in check.outcomes:
            if outcome.also_saw or outcome.also_answers:
                yield answer(check.id, outcome.id), layer.key_within(check.place, "outcomes", outcome.id, "also")
