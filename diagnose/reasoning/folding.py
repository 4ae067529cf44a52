"""Causes that touch a single loud finding, folded into its leak before the sweep and unfolded after it.

Seen from the rest of the network such causes and the leak are one thing: together they explain the finding or
leave it as it is. So only the causes that several findings share cost the sweep anything.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from diagnose.reasoning.factors import ALIVE, Factors, Loud, Pull
from diagnose.reasoning.swept import Swept


@dataclass(frozen=True, slots=True)
class Fold:
    """``pulls`` are those of the causes, present or not; ``chain`` holds what the leak does alone, then
    together with the first cause, and so on; ``leak`` is its last: all of them together."""

    loud: Loud
    causes: Sequence[int]
    pulls: tuple[Pull, ...]
    chain: tuple[Pull, ...]

    @property
    def leak(self) -> Pull:
        return self.chain[-1]


def fold(given: Factors, loud: Loud, causes: Sequence[int]) -> Fold:
    """The finding with the causes that touch no other loud one."""
    chain = [loud.leak]
    pulls = []
    for cause in causes:
        pull = _pull(given, cause, loud.pulls[cause])
        b, c = chain[-1]
        chain.append(Pull(b * (pull.b + pull.c) + c * pull.b, c * pull.c))
        pulls.append(pull)
    return Fold(loud, causes, tuple(pulls), tuple(chain))


def _pull(given: Factors, cause: int, pulls: dict[int, Pull]) -> Pull:
    b, c = 0.0, given.absent[cause]
    for death, weight in given.modes[cause].items():
        b += weight * pulls[death].b
        c += weight * pulls[death].c
    return Pull(b, c)


def unfold(folded: Fold, given: Factors, unexplained: float, explained: float, swept: Swept) -> None:
    """Set down the leak and the folded causes, given what the rest of the network makes of the finding left
    unexplained by them and of the finding explained."""
    lasting = folded.loud.lasting
    for cause, pull, (b, c) in zip(
        reversed(folded.causes), reversed(folded.pulls), reversed(folded.chain[:-1]), strict=True
    ):
        shares = {}
        for death, weight in given.modes[cause].items():
            own = folded.loud.pulls[cause][death]
            idle = own.c * (c * unexplained + b * explained)
            shares[death] = weight * (idle + own.b * (c + b) * explained)
        absent = given.absent[cause] * (c * unexplained + b * explained)
        brought = given.modes[cause][ALIVE] * folded.loud.pulls[cause][ALIVE].b * (c + b) * explained
        swept.put(cause, absent, shares, min(brought, shares[ALIVE]) if lasting else 0.0)
        unexplained = pull.c * unexplained + pull.b * explained
        explained *= pull.b + pull.c
    b, c = folded.loud.leak
    total = c * unexplained + b * explained
    if lasting and total:
        swept.unknown += b * explained / total
