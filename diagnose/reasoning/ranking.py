"""The causes that come up: those behind what is seen, likeliest first, down to a stated chance."""

from dataclasses import dataclass

from diagnose.reasoning.beliefs import Beliefs
from diagnose.reasoning.network import Network

SHOWN = 0.02  # causes less likely than this do not come up
MOST_SHOWN = 12


@dataclass(frozen=True, slots=True)
class Suspect:
    """A cause that comes up: ``present`` that it is there, ``behind`` that it is behind what is seen."""

    cause: str
    index: int
    present: float
    behind: float


def suspects(net: Network, beliefs: Beliefs) -> list[Suspect]:
    """At most MOST_SHOWN causes that may be behind what is still seen, likeliest to be behind it first."""
    found = [
        Suspect(cause, i, beliefs.alive[i], beliefs.behind[i])
        for i, cause in enumerate(net.causes)
        if beliefs.behind[i] >= SHOWN
    ]
    return sorted(found, key=lambda s: (-round(s.behind, 9), s.cause))[:MOST_SHOWN]
