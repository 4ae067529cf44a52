"""The sweep's arithmetic on numpy arrays, for many findings open at a time. Imported only then.

A present cause acts on the sets of explained findings by a product of 2 x 2 matrices, one a finding. Where
it moves most of BLOCK neighbouring findings, theirs are put together first. Matrices are applied to stripes
small enough for numpy not to share the work among threads, which costs more than it brings at these sizes.
"""

from collections.abc import Iterator, Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from diagnose.reasoning.pulls import NO_PULL, Pull

Array: TypeAlias = NDArray[np.float64]
Moves: TypeAlias = Sequence[tuple[int, Pull]]

BLOCK = 4  # findings to a matrix, of 2 ** BLOCK rows
WORTH_A_MATRIX = 3  # moves within a block; fewer are made one by one
STRIPE = 512  # columns that a matrix is applied to at a time


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


def forth(f: Array, moves: Moves) -> Array:
    """A present cause explains each finding with chance b, on top of those explained before. Returns an array
    of its own."""
    result = f.copy()
    for first, block in _blocks(moves):
        if len(block) < WORTH_A_MATRIX:
            for position, (b, c) in block:
                low, high = _halves(result, position)
                high *= b + c
                high += b * low
                low *= c
        else:
            result = _applied(_matrix(first, block, len(f)), result, first)
    return result


def back(v: Array, moves: Moves) -> Array:
    """The adjoint of ``forth``."""
    result = v.copy()
    for first, block in _blocks(moves):
        if len(block) < WORTH_A_MATRIX:
            for position, (b, c) in block:
                low, high = _halves(result, position)
                low *= c
                low += b * high
                high *= b + c
        else:
            result = _applied(_matrix(first, block, len(v)).T.copy(), result, first)
    return result


def _halves(f: Array, position: int) -> tuple[Array, Array]:
    pairs = f.reshape(-1, 2, 1 << position)
    return pairs[:, 0, :], pairs[:, 1, :]


def _blocks(moves: Moves) -> Iterator[tuple[int, list[tuple[int, Pull]]]]:
    """The moves, BLOCK bit positions at a time, each block with its first position."""
    blocks: dict[int, list[tuple[int, Pull]]] = {}
    for move in moves:
        blocks.setdefault(move[0] // BLOCK * BLOCK, []).append(move)
    yield from blocks.items()


def _matrix(first: int, block: Moves, size: int) -> Array:
    """From the sets of findings explained before (columns) to those explained after (rows)."""
    at = dict(block)
    result = np.ones((1, 1))
    for position in range(first, min(first + BLOCK, size.bit_length() - 1)):
        b, c = at.get(position, NO_PULL)
        single = np.array([[c, 0.0], [b, b + c]])
        rows = 2 * len(result)
        result = (single[:, None, :, None] * result[None, :, None, :]).reshape(rows, rows)
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
