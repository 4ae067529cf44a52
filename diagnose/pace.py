"""How far long work has come: whoever does it tells the share that is done, and knows nothing of who listens."""

from collections.abc import Callable, Collection, Iterator
from typing import TypeVar

T = TypeVar("T")
Far = Callable[[float], object]  # takes the share that is done, from 0 to 1


def unheard(share: float) -> None:
    """For whoever does not want to know."""


def part(far: Far, begin: float, end: float) -> Far:
    """The listener for a part of the work, which takes it from one share of the whole to another."""
    return lambda share: far(begin + share * (end - begin))


def paced(items: Collection[T], far: Far) -> Iterator[T]:
    """The items in turn; with each it is told how far one has come, and at the end that all is done."""
    for number, item in enumerate(items):
        far(number / len(items))
        yield item
    far(1.0)
