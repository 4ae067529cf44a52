"""Plain values taken apart and put together again, as YAML has them: nothing is changed in place."""

from collections.abc import Mapping
from copy import deepcopy
from typing import Any

Key = str | int


def plain(value: Any) -> Any:
    """The value as reading it back gives it: lists for tuples, numbers with as many digits as are written."""
    if isinstance(value, Mapping):
        return {key: plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [plain(each) for each in value]
    return float(f"{value:.12g}") if isinstance(value, float) else value


def keyed(value: Any) -> Mapping[Any, Any]:
    """The entries of a mapping or list by key or position; none of anything else."""
    if isinstance(value, list):
        return dict(enumerate(value))
    return value if isinstance(value, Mapping) else {}


def pruned(old: Any, value: Any) -> Any:
    """What ``_prune`` leaves."""
    entries, wanted = keyed(old), keyed(value)
    if not entries or not wanted or not any(key in wanted for key in entries):
        return old
    left = {key: pruned(each, wanted[key]) for key, each in entries.items() if key in wanted}
    return list(left.values()) if isinstance(old, list) else left


def same(one: Any, other: Any) -> bool:
    """Whether two plain values are equal, a truth value and a number never."""
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(same, one, other))
    return isinstance(one, bool) == isinstance(other, bool) and bool(one == other)


def with_value(whole: Any, path: tuple[Key, ...], value: Any) -> Any:
    if not path:
        return value
    key, *rest = path
    if isinstance(whole, list):
        copy = [*whole, None] if key == len(whole) else [*whole]
        copy[int(key)] = with_value(copy[int(key)], tuple(rest), value)
        return copy
    if isinstance(key, int):
        return [with_value(None, tuple(rest), value)]
    there = whole if isinstance(whole, Mapping) else {}
    return {**there, key: with_value(there.get(key), tuple(rest), value)}


def without_value(whole: Any, path: tuple[Key, ...]) -> Any:
    key, *rest = path
    copy = deepcopy(whole)
    if rest:
        copy[key] = without_value(copy[key], tuple(rest))
    else:
        del copy[key]
    return copy
