"""Nothing is asserted without somebody's word."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final, TypeAlias

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.near import nearest
from diagnose.problems import Place

FROM_MEMORY: Final = "from memory"  # for the property of a material only
THIS_SHOPS_CASES: Final = "this shop's cases"
ANOTHER_SHOPS_CASES: Final = "another shop's cases"  # in rules that were taken from a bundle
PLAIN_PHRASES: Final = ("common practice", THIS_SHOPS_CASES)
_NO_SOURCE: Final = "chosen for presslore"
_Basis: TypeAlias = tuple[Place, tuple[str | int, ...], tuple[str, ...]]


def unknown_bases(layer: Layer) -> Iterator[Found]:
    """A basis is the id of a source or one of the plain phrases."""
    known = {*layer.ids("sources"), *PLAIN_PHRASES, ANOTHER_SHOPS_CASES}
    yield from _unknown(layer, _bases(layer), known, PLAIN_PHRASES)
    yield from _unknown(layer, _bases_of_properties(layer), known | {FROM_MEMORY}, (*PLAIN_PHRASES, FROM_MEMORY))


def _unknown(layer: Layer, bases: Iterable[_Basis], known: set[str], phrases: Sequence[str]) -> Iterator[Found]:
    for place, path, basis in bases:
        for each in basis:
            if each not in known:
                yield Found(
                    layer.value_within(place, *path, "basis"),
                    f'"{each}" is neither a source nor a plain phrase',
                    f"the id of a source, {', '.join(phrases[:-1])} or {phrases[-1]}",
                    nearest(each, known),
                )


def unknown_scale_sources(layer: Layer) -> Iterator[Found]:
    """A word of the scale names the source of its number, or says that presslore chose it."""
    known = {*layer.ids("sources"), _NO_SOURCE}
    for word in layer.scale.values():
        if word.source not in known:
            yield Found(
                layer.scale_places[word.word],
                f'"{word.source}" is no source for "{word.word}"',
                f"the id of a source or {_NO_SOURCE}",
                nearest(word.source, known),
            )


def _bases_of_properties(layer: Layer) -> Iterator[_Basis]:
    for material in layer.materials.values():
        yield from ((material.place, (key,), told.basis) for key, told in material.properties.items())


def _bases(layer: Layer) -> Iterator[_Basis]:
    """Each basis, with the place of its entry and the path from there to what it is the basis of."""
    kinds = (layer.causes, layer.checks, layer.fixes, layer.items, layer.cautions, layer.glossary, layer.bodies)
    for kind in (*kinds, layer.refused, layer.handling, layer.ready, layer.readings):
        yield from ((entry.place, (), entry.basis) for entry in kind.values())
    for defect in layer.defects.values():
        yield defect.place, (), defect.basis
        yield from ((rule.place, (), rule.basis) for rule in defect.rules)
    for note in layer.care.values():
        for index, statement in enumerate(note.statements):
            yield note.place, ("statements", index), statement.basis
