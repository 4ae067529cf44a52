"""Checks of conditions, jobs and items against the facts of the job."""

from collections.abc import Iterator, Mapping

from diagnose.knowledge.conditions import Condition, FactValue, Span, Test
from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.crosscheck.within import Path, spots
from diagnose.knowledge.documents.scalars import hint_for_text
from diagnose.knowledge.forms import Part
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.model import Fact, Instead
from diagnose.knowledge.near import nearest
from diagnose.problems import Place


def unknown_facts(layer: Layer) -> Iterator[Found]:
    """A condition, an item or a worked case asks about a fact that nobody has described."""
    known = layer.ids("facts")
    for place, path, test in _tests(layer):
        if test.fact not in known:
            where = layer.key_within(place, *path, test.fact)
            yield Found(where, f'"{test.fact}" is not among the facts', hint=nearest(test.fact, known))


def impossible_values(layer: Layer) -> Iterator[Found]:
    """A fact is compared with something it can never be."""
    for place, path, test in _tests(layer):
        fact = layer.facts.get(test.fact)
        if fact and (wrong := _impossible(fact, test)):
            near = nearest(wrong, fact.one_of) if fact.one_of else _meant(test)
            where = layer.value_within(place, *path, test.fact)
            yield Found(where, f"{test.fact} can never be {wrong}", _possible(fact), near)


def _impossible(fact: Fact, test: Test) -> str:
    """What of a test the fact can never be ("" where all is well)."""
    if test.span:
        return "" if _reaches(fact, test.span) else f'"{test.written}"'
    return next((_shown(value) for value in test.values if not _may_be(fact, value)), "")


def _meant(test: Test) -> str:
    """What was meant by a text in the place of a number or of a truth value."""
    return next((hint_for_text(value) for value in test.values if isinstance(value, str)), "")


def _shown(value: FactValue) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value).lower()


def _reaches(fact: Fact, span: Span) -> bool:
    """Whether a span is the right way round and reaches into what the fact may be."""
    if fact.least is None or fact.most is None:
        return False
    return span.least <= span.most and span.least <= fact.most and span.most >= fact.least


def _may_be(fact: Fact, value: FactValue) -> bool:
    if fact.yes_no:
        return isinstance(value, bool)
    if fact.one_of:
        return value in fact.one_of
    number = isinstance(value, float) and not isinstance(value, bool)
    return number and _reaches(fact, Span(float(value), float(value)))


def _possible(fact: Fact) -> str:
    if fact.yes_no:
        return "true or false"
    if fact.one_of:
        return f"one of {', '.join(fact.one_of)}"
    return f'a number from {fact.least:g} to {fact.most:g}, or a comparison such as "< 65" or "50..80"'


def _tests(layer: Layer) -> Iterator[tuple[Place, Path, Test]]:
    """Every test of a fact, with the place of its entry and the path to the mapping it stands in."""
    for spot in spots(layer, _speaks_of_facts):
        yield from ((spot.place, spot.path, test) for test in _spoken(spot.held))


def _spoken(held: Condition | Mapping[str, FactValue | tuple[Instead, ...]]) -> Iterator[Test]:
    if isinstance(held, Condition):
        yield from held.tests
        return
    for fact, each in held.items():
        yield Test(fact, tuple([one.value for one in each]) if isinstance(each, tuple) else (each,))


def _speaks_of_facts(part: Part) -> bool:
    return part.type in (Condition, Mapping[str, FactValue], Mapping[str, tuple[Instead, ...]])
