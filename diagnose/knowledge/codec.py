"""Frozen dataclasses <-> plain JSON values, by the dataclasses' own annotations.

A dataclass becomes the list of its fields in order. A Place becomes [number of its file, line, column]: the
files' names are kept apart, so that the same compiled knowledge can be shown from any working folder.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import fields, is_dataclass
from types import NoneType
from typing import Annotated, Any, Final, NewType, TypeVar, get_args, get_origin

from diagnose.problems import Place

Decode = Callable[[Any], Any]
T = TypeVar("T")
_FileName = NewType("_FileName", str)
_PLAIN: Final = (str, int, float, bool, NoneType)


def encode(value: object, file_numbers: Mapping[str, int]) -> Any:
    """Plain JSON values for a dataclass or what it holds; KeyError for a place in an unnumbered file."""
    if isinstance(value, Place):
        return [file_numbers[value.file], value.line, value.column]
    if is_dataclass(value):
        return [encode(getattr(value, each.name), file_numbers) for each in fields(value)]
    if isinstance(value, Mapping):
        return {key: encode(entry, file_numbers) for key, entry in value.items()}
    if isinstance(value, tuple):
        return [encode(entry, file_numbers) for entry in value]
    return value


def decode(kind: type[T], value: Any, files: Sequence[str]) -> T:
    """The dataclass ``kind`` that ``encode`` made ``value`` from; ``files`` are the names by number.

    Values go straight into the slots of new objects, past ``__init__``, and are not checked. Raises
    TypeError, ValueError, KeyError, IndexError or AttributeError for what ``encode`` cannot have made.
    """
    made: T = _Decoders(files).of(kind)(value)
    return made


class _Decoders:
    """Functions that turn plain values back into a type's values, made once for each type."""

    def __init__(self, files: Sequence[str]) -> None:
        self._made: dict[Any, Decode | None] = {_FileName: files.__getitem__}

    def of(self, kind: Any) -> Decode:
        return self._find(kind) or (lambda value: value)

    def _find(self, kind: Any) -> Decode | None:
        """The function for a type; None where the plain value is already what is wanted."""
        if kind not in self._made:
            self._made[kind] = self._make(kind)
        return self._made[kind]

    def _make(self, kind: Any) -> Decode | None:
        if is_dataclass(kind):
            return self._object(kind)
        origin, inner = get_origin(kind), get_args(kind)
        if origin is Annotated:
            return self._find(inner[0])
        if origin is tuple:
            return _sequence(self._find(inner[0]))
        if origin is not None and isinstance(origin, type) and issubclass(origin, Mapping):
            return _mapping(self._find(inner[1]))
        other = [each for each in inner if each not in _PLAIN]
        return _optional(self._find(other[0])) if other else None

    def _object(self, kind: Any) -> Decode:
        types = (_FileName, int, int) if kind is Place else tuple(each.type for each in fields(kind))
        decoders = tuple(map(self._find, types))
        build = _builder(kind, decoders)
        return build if any(decoders) else _sharing(build)


def _builder(kind: Any, decoders: Sequence[Decode | None]) -> Decode:
    puts = [getattr(kind, each.name).__set__ for each in fields(kind)]
    slots = tuple(zip(puts, decoders, strict=True))
    new = object.__new__

    def build(values: Sequence[Any]) -> Any:
        made = new(kind)
        for (put, decoder), value in zip(slots, values, strict=True):
            put(made, decoder(value) if decoder else value)
        return made

    return build


def _sharing(build: Decode) -> Decode:
    """Equal values without parts, such as the many chances, become one and the same object."""
    known: dict[tuple[Any, ...], Any] = {}

    def share(values: Sequence[Any]) -> Any:
        key = tuple(values)
        made = known.get(key)
        if made is None:
            made = known[key] = build(values)
        return made

    return share


def _sequence(entry: Decode | None) -> Decode:
    return tuple if entry is None else lambda values: tuple(map(entry, values))


def _mapping(entry: Decode | None) -> Decode:
    return dict if entry is None else lambda values: {key: entry(value) for key, value in values.items()}


def _optional(entry: Decode | None) -> Decode | None:
    return entry and (lambda value: None if value is None else entry(value))
