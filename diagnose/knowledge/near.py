"""Did you mean: the words nearest to one that is not known."""

from collections.abc import Callable, Collection, Iterable
from functools import partial


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A hint that names up to two known words spelt like ``word`` ("" where none comes near)."""
    from difflib import get_close_matches  # costs 10 ms, and is wanted only where something is wrong

    near = get_close_matches(word[:60], sorted(set(known)), n=2, cutoff=0.6)
    return f"did you mean {' or '.join(near)}?" if near else ""


def nearest(word: str, known: Collection[str]) -> Callable[[], str]:
    """The same hint, worked out only where somebody will read it: looking through all that is known for each of many
    unknown words would take for ever."""
    return partial(did_you_mean, word, known)
