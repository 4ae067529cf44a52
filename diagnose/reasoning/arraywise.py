"""The sweep's arithmetic on numpy arrays, for many findings open at a time. Imported only then.

Each present cause acts on all open findings at once through a product of 2 x 2 matrices, taken BLOCK findings
at a time. Matrices are kept small enough for numpy not to share the work among threads, which costs far more
than it brings at these sizes.
"""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from diagnose.reasoning.factors import Pull

Array = NDArray[np.float64]

BLOCK = 4  # findings to a matrix, of 2 ** BLOCK rows
STRIPE = 512  # columns that a matrix is applied to at a time
NO_PULL = Pull(0.0, 1.0)


def one() -> Array:
    """No finding open: the one set, the empty one, has all the weight."""
    return np.ones(1)


def open(f: Array, leak: Pull) -> Array:  # noqa: A001 - the word of the sweep
    """A finding enters at the highest bit: explained by the leak, or not."""
    return np.concatenate([f * leak.c, f * leak.b])


def open_back(v: Array) -> tuple[Array, Array]:
    """The halves of v with the highest bit unset and set."""
    half = len(v) // 2
    return v[:half], v[half:]


def close(f: Array, position: int) -> Array:
    """A finding leaves: what has not explained it is impossible."""
    return f.reshape(-1, 2, 1 << position)[:, 1, :].reshape(-1)


def close_back(v: Array, position: int) -> Array:
    """The adjoint of ``close``."""
    step = 1 << position
    wide = np.zeros((len(v) // step, 2, step))
    wide[:, 1, :] = v.reshape(-1, step)
    return wide.reshape(-1)


def forth(f: Array, moves: Sequence[tuple[int, Pull]]) -> Array:
    """A present cause explains each finding with chance b, on top of those explained before. Returns an array
    of its own."""
    result = f
    for first, matrix in _matrices(len(f), moves):
        result = _applied(matrix, result, first)
    return result if moves else f.copy()


def back(v: Array, moves: Sequence[tuple[int, Pull]]) -> Array:
    """The adjoint of ``forth``."""
    result = v
    for first, matrix in _matrices(len(v), moves):
        result = _applied(np.ascontiguousarray(matrix.T), result, first)
    return result if moves else v.copy()


def _matrices(size: int, moves: Sequence[tuple[int, Pull]]) -> Iterator[tuple[int, Array]]:
    """The lowest bit position and the matrix of each block of positions that has moves."""
    at = dict(moves)
    width = size.bit_length() - 1
    for first in range(0, width, BLOCK):
        block = range(first, min(first + BLOCK, width))
        if any(position in at for position in block):
            yield first, _matrix([at.get(position, NO_PULL) for position in block])


def _matrix(pulls: Sequence[Pull]) -> Array:
    """From the sets of findings explained before (columns) to those explained after (rows)."""
    result = np.ones((1, 1))
    for b, c in pulls:
        single = np.array([[c, 0.0], [b, b + c]])
        size = 2 * len(result)
        result = (single[:, None, :, None] * result[None, :, None, :]).reshape(size, size)
    return result


def _applied(matrix: Array, f: Array, first: int) -> Array:
    size, step = len(matrix), 1 << first
    if step == 1:
        rows = min(STRIPE, len(f) // size)
        return (f.reshape(-1, rows, size) @ matrix.T).reshape(-1)
    columns = min(STRIPE, step)
    stripes = (-1, size, step // columns, columns)
    result = np.empty_like(f)
    np.matmul(matrix, f.reshape(stripes).swapaxes(1, 2), out=result.reshape(stripes).swapaxes(1, 2))
    return result


def mix(parts: Sequence[tuple[float, Array]]) -> Array:
    """The weighted sum of arrays of equal length. All but the first are used up."""
    weight, values = parts[0]
    result = weight * values
    for weight, values in parts[1:]:
        values *= weight
        result += values
    return result


def dot(f: Array, v: Array) -> float:
    return float(np.einsum("i,i", f, v))


def total(f: Array) -> float:
    return float(f.sum())
