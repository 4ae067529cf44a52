"""The form in which a value stands in a file, by its class's own annotations: what readers and cross-checks go by.

A field stands under its own name, with hyphens, and a condition under ``if``, unless ``stands`` says otherwise. What
names an entry has an id type such as ``CauseId``, so that its annotation says of which kind the entry is.
"""

from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, fields, is_dataclass
from functools import cache
from types import UnionType
from typing import Annotated, Any, get_args, get_origin, get_type_hints

from diagnose.knowledge.conditions import Condition
from diagnose.knowledge.entry import Chance

_IN_SHORT = (Chance, Condition)  # whose form in a file is not that of their fields


@dataclass(frozen=True, slots=True)
class Part:
    """One field of a class: its type without None and annotations, the keys that it stands under, and whether there is
    a default. ``refers``: the kind of the entries that it names, as its value, its values or, of a mapping, its keys.
    ``parts``: the dataclass that it holds, once, several times or by name (``by_name``)."""

    name: str
    type: Any
    path: tuple[str, ...]
    optional: bool
    refers: str = ""
    parts: Any = None
    by_name: bool = False
    unit: float = 1.0
    gathers: tuple[str, ...] = ()


def form(of: Any) -> tuple[Part, ...]:
    """The fields of a dataclass, in order."""
    return _form(of)


def leading(of: Any, sought: Callable[[Part], bool]) -> tuple[Part, ...]:
    """The fields of a dataclass that are sought, or that hold something that is. ``sought`` is one and the same
    function each time, for what it leads to is kept."""
    return _leading(of, sought)


@cache
def _form(of: Any) -> tuple[Part, ...]:
    plain = get_type_hints(of)
    return tuple(_part(each, _bare(plain[each.name])) for each in fields(of) if each.init)


@cache
def _leading(of: Any, sought: Callable[[Part], bool]) -> tuple[Part, ...]:
    return tuple(part for part in form(of) if sought(part) or (part.parts and leading(part.parts, sought)))


def _part(each: Any, kind: Any) -> Part:
    key = "if" if kind is Condition else each.name.replace("_", "-")
    stood = {"path": (key,), **each.metadata}
    optional = each.default is not MISSING or each.default_factory is not MISSING
    inner = get_args(kind)
    by_name = get_origin(kind) is Mapping
    held = inner[1] if by_name else inner[0] if inner else kind
    held = get_args(held)[0] if by_name and get_origin(held) is tuple else held
    parts = held if is_dataclass(held) and held not in _IN_SHORT else None
    return Part(each.name, kind, optional=optional, refers=_refers(each.type), parts=parts, by_name=by_name, **stood)


def _bare(kind: Any) -> Any:
    """A type without its None."""
    inner = [each for each in get_args(kind) if each is not type(None)]
    return inner[0] if isinstance(kind, UnionType) and len(inner) == 1 else kind


def _refers(kind: Any) -> str:
    """The kind of entries that a value, the values of a tuple or the keys of a mapping are the ids of."""
    if get_origin(kind) is Annotated:
        return str(kind.__metadata__[0])
    first = get_args(kind)[:1]
    return _refers(first[0]) if first else ""
