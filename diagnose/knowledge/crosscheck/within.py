"""Looks for parts within all entries, by the annotations of their classes, and knows where each stands."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

from diagnose.knowledge.forms import Part, leading
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.model import KINDS
from diagnose.problems import Place

Path: TypeAlias = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class PartAt:
    """A part within an entry: what it is a part of, the place of the innermost thing round it that has one, the path
    from there, and what it holds."""

    whole: Any
    part: Part
    place: Place
    path: Path
    held: Any


def spots(layer: Layer, sought: Callable[[Part], bool]) -> Iterator[PartAt]:
    """Every part of an entry or of a press that is sought. ``sought`` is one and the same function for each search,
    for what it finds in classes is kept."""
    for kind in KINDS:
        for entry in layer.of(kind).values():
            yield from _within(entry, entry.place, (), sought)
    for press, place in layer.presses:
        yield from _within(press, place, (), sought)


def _within(whole: Any, place: Place, path: Path, sought: Callable[[Part], bool]) -> Iterator[PartAt]:
    for part in leading(type(whole), sought):
        held, below = getattr(whole, part.name), (*path, *part.path)
        if sought(part):
            yield PartAt(whole, part, place, below, held)
        elif held is not None:
            for step, each in _several(held):
                own = getattr(each, "place", None)
                yield from _within(each, own or place, () if own else (*below, *step), sought)


def _several(held: Any) -> Iterable[tuple[Path, Any]]:
    """What a part holds, each with the step that leads to it: its name or number, and no step to what stands alone."""
    if isinstance(held, Mapping):
        return [((name, *step), one) for name, each in held.items() for step, one in _several(each)]
    if isinstance(held, tuple):
        return [((getattr(each, "id", index),), each) for index, each in enumerate(held)]
    return [((), held)]
