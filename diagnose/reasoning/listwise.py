"""The sweep's arithmetic on plain lists: nothing to import, and quickest while few findings are open."""

from collections.abc import Sequence

from diagnose.reasoning.pulls import Pull


def one() -> list[float]:
    """No finding open: the one set, the empty one, has all the weight."""
    return [1.0]


def open(f: list[float], leak: Pull) -> list[float]:  # noqa: A001 - the word of the sweep
    """A finding enters at the highest bit: explained by the leak, or not."""
    return [x * leak.c for x in f] + [x * leak.b for x in f]


def open_back(v: list[float]) -> tuple[list[float], list[float]]:
    """The halves of v with the highest bit unset and set."""
    half = len(v) // 2
    return v[:half], v[half:]


def close(f: list[float], position: int) -> list[float]:
    """A finding leaves: what has not explained it is impossible."""
    step = 1 << position
    return [x for base in range(step, len(f), 2 * step) for x in f[base : base + step]]


def close_back(v: list[float], position: int) -> list[float]:
    """The adjoint of ``close``."""
    step = 1 << position
    nothing = [0.0] * step
    return [x for base in range(0, len(v), step) for x in (*nothing, *v[base : base + step])]


def forth(f: list[float], moves: Sequence[tuple[int, Pull]]) -> list[float]:
    """A present cause explains each finding with chance b, on top of those explained before."""
    at = dict(moves)
    for position in range(len(f).bit_length() - 1):
        low, high = f[::2], f[1::2]  # by the lowest bit, which comes back as the highest
        if position in at:
            b, c = at[position]
            a = b + c
            high = [a * y + b * x for x, y in zip(low, high, strict=True)]
            low = [c * x for x in low]
        f = low + high
    return f


def back(v: list[float], moves: Sequence[tuple[int, Pull]]) -> list[float]:
    """The adjoint of ``forth``."""
    at = dict(moves)
    for position in range(len(v).bit_length() - 1):
        low, high = v[::2], v[1::2]
        if position in at:
            b, c = at[position]
            a = b + c
            low = [c * x + b * y for x, y in zip(low, high, strict=True)]
            high = [a * y for y in high]
        v = low + high
    return v


def mix(parts: Sequence[tuple[float, list[float]]]) -> list[float]:
    """The weighted sum of lists of equal length."""
    weight, values = parts[0]
    if len(parts) == 1:
        return [weight * x for x in values]
    (other, more), *rest = parts[1:]
    result = [weight * x + other * y for x, y in zip(values, more, strict=True)]
    for weight, values in rest:
        result = [r + weight * x for r, x in zip(result, values, strict=True)]
    return result


def dot(f: list[float], v: list[float]) -> float:
    return sum(map(float.__mul__, f, v))


def total(f: list[float]) -> float:
    return sum(f)
