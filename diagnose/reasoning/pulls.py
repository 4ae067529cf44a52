"""What one cause, or the leak, does to a finding seen at a level."""

from typing import NamedTuple


class Pull(NamedTuple):
    """What a present cause does to a finding: ``b`` explains it, ``c`` neither explains nor contradicts."""

    b: float
    c: float


ALIVE = 1_000_000  # the death of a cause that is still there
NO_PULL = Pull(0.0, 1.0)


def pull(chances: tuple[float, ...], level: int) -> Pull:
    """The chance of picking just this level, and of picking a lower one. At level 0 nothing is explained, and
    ``c`` is the chance of picking none."""
    below = max(0.0, 1.0 - sum(chances))
    if level == 0:
        return Pull(0.0, below)
    return Pull(chances[level - 1], below + sum(chances[: level - 1]))
