"""Ids that lead nowhere: whatever an annotation says to be the id of an entry is looked up among the entries."""

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.crosscheck.within import PartAt, Path, spots
from diagnose.knowledge.documents.document import Plain
from diagnose.knowledge.forms import Part, form
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.model import KINDS
from diagnose.knowledge.near import nearest
from diagnose.knowledge.shop import Press
from diagnose.problems import Place

_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def unknown(kind: str, layer: Layer) -> Iterator[Found]:
    """Each place that names an entry of a kind that is not there: within entries, what presses are known for, and
    in what could not be read."""
    known = layer.ids(kind)
    for named, place in _named(layer, kind):
        if named not in known:
            yield Found(place, f'"{named}" is not among the {KINDS[kind].called}', hint=nearest(named, known))


def unknown_outcomes(layer: Layer) -> Iterator[Found]:
    """In the answers of worked cases, and in what entails an answer."""
    for spot in spots(layer, _refers_to("checks")):
        for check, outcome in spot.held.items() if isinstance(spot.held, Mapping) else ():
            known = [each.id for each in layer.checks[check].outcomes] if check in layer.checks else [outcome]
            if outcome not in known:
                place = layer.value_within(spot.place, *spot.path, check)
                wrong = f'"{check}" has no outcome "{outcome}"'
                yield Found(place, wrong, f"one of {', '.join(known)}", nearest(outcome, known))


def referred_to() -> list[str]:
    """The kinds that something refers to, in the order of the kinds."""
    return [kind for kind in KINDS if any(part.refers == kind for part in _parts())]


def _named(layer: Layer, kind: str) -> Iterator[tuple[str, Place]]:
    for spot in spots(layer, _refers_to(kind)):
        at = layer.key_within if isinstance(spot.held, Mapping) else layer.value_within
        yield from ((named, at(spot.place, *path)) for named, path in _ids(spot))
    yield from _in_broken(layer, kind)


@cache
def _refers_to(kind: str) -> Callable[[Part], bool]:
    return lambda part: part.refers == kind


def _ids(spot: PartAt) -> Iterator[tuple[str, Path]]:
    if isinstance(spot.held, Mapping):
        yield from ((named, (*spot.path, named)) for named in spot.held)
    elif isinstance(spot.held, tuple):
        yield from ((named, (*spot.path, index)) for index, named in enumerate(spot.held))
    elif spot.held:
        yield spot.held, spot.path


def _in_broken(layer: Layer, kind: str) -> Iterator[tuple[str, Place]]:
    """Each id of a kind that an entry names which could not be read, so that one fault does not hide another beside
    it: what stands under the keys that such ids stand under elsewhere."""
    keys = {part.path[-1]: part.by_name for part in _parts() if part.refers == kind}
    for node in layer.broken:
        for path, named in _below(node.path, node.value, keys):
            at = node.document.key_place if path[-1] == named else node.document.value_place
            yield named, at(path)


@cache
def _parts() -> tuple[Part, ...]:
    """Every part of every class that is written in a file."""
    seen: dict[Any, tuple[Part, ...]] = {}
    waiting: list[Any] = [Press, *(kind.made for kind in KINDS.values())]
    while waiting:
        if (of := waiting.pop()) not in seen:
            seen[of] = form(of)
            waiting += [part.parts for part in seen[of] if part.parts]
    return tuple(part for parts in seen.values() for part in parts)


def _below(path: Path, value: Plain, keys: Mapping[str, bool]) -> Iterator[tuple[Path, str]]:
    """The path and the id of everything below that stands under one of the keys, or names what stands there."""
    if isinstance(value, list):
        for index, each in enumerate(value):
            yield from _below((*path, index), each, keys)
    elif isinstance(value, dict):
        for key, each in value.items():
            if key not in keys:
                yield from _below((*path, key), each, keys)
            elif not keys[key]:
                yield from _texts((*path, key), each)
            elif isinstance(each, dict):
                yield from (((*path, key, named), named) for named in each if _ID.fullmatch(named))


def _texts(path: Path, value: Plain) -> Iterator[tuple[Path, str]]:
    if isinstance(value, str) and _ID.fullmatch(value):
        yield path, value
    elif isinstance(value, list):
        for index, each in enumerate(value):
            yield from _texts((*path, index), each)
