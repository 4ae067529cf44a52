"""Causes that touch a single loud finding, folded into its leak before the sweep and unfolded after it.

Seen from the rest of the network such causes and the leak are one thing: together they explain the finding or
leave it as it is. So only the causes that several findings share cost the sweep anything.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from diagnose.reasoning.factors import Factors, Loud
from diagnose.reasoning.pulls import ALIVE, Pull
from diagnose.reasoning.swept import Swept


@dataclass(frozen=True, slots=True)
class Fold:
    """``pulls`` are (b, c) of the causes, present or not; ``chain`` holds what the leak does alone, then
    together with the first cause, and so on; ``leak`` is its last: all of them together."""

    loud: Loud
    causes: Sequence[int]
    pulls: Sequence[tuple[float, float]]
    chain: Sequence[tuple[float, float]]

    @property
    def leak(self) -> Pull:
        return Pull(*self.chain[-1])


def fold(given: Factors, loud: Loud, causes: Sequence[int]) -> Fold:
    """The finding with the causes that touch no other loud one."""
    b, c = loud.leak
    chain, pulls = [(b, c)], []
    for cause in causes:
        own = loud.pulls[cause]
        pull_b, pull_c = 0.0, given.absent[cause]
        for death, weight in given.modes[cause].items():
            own_b, own_c = own[death]
            pull_b += weight * own_b
            pull_c += weight * own_c
        b, c = b * (pull_b + pull_c) + c * pull_b, c * pull_c
        pulls.append((pull_b, pull_c))
        chain.append((b, c))
    return Fold(loud, causes, pulls, chain)


def unfold(folded: Fold, given: Factors, unexplained: float, explained: float, swept: Swept) -> None:
    """Set down the leak and the folded causes, given what the rest of the network makes of the finding left
    unexplained by them and of the finding explained."""
    loud, modes, absent, put = folded.loud, given.modes, given.absent, swept.put
    lasting = loud.lasting
    for place in range(len(folded.causes) - 1, -1, -1):
        cause, (b, c) = folded.causes[place], folded.chain[place]
        left, done = c * unexplained + b * explained, (b + c) * explained
        there = alive = behind = 0.0
        pulls = loud.pulls[cause]
        for death, weight in modes[cause].items():
            b, c = pulls[death]
            there += weight * (c * left + b * done)
            if death == ALIVE:
                alive, behind = weight * (c * left + b * done), weight * b * done
        put(cause, absent[cause] * left, there, alive, behind if lasting else 0.0)
        b, c = folded.pulls[place]
        unexplained, explained = c * unexplained + b * explained, (b + c) * explained
    b, c = loud.leak
    total = c * unexplained + b * explained
    if lasting and total:
        swept.unknown += b * explained / total
