"""The rules run forwards: from how likely each cause is to how likely each defect is.

A defect is spared only where its leak and every cause of it spare it: 1 - (1 - leak) Π (1 - p q). A press is spared
where every defect is, which is exact as well: causes are independent beforehand, so a cause spares the press with the
chance 1 - p + p Π (1 - q) over all its defects.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import prod

from diagnose.reasoning.network import Network

HALVINGS = 60
EVEN = (
    0.5  # from here on a chance is as good as a fact: the goods bring it along, or pressing loses more than it brings
)
LATER = "after"  # the family of causes that come after the press
GO, CARE, STOP = "go", "go with care", "stop"  # what a forecast comes to


@dataclass(frozen=True, slots=True)
class Forecast:
    """``defects``: the chance of each; ``spoilt``: of any at all; ``due``: by cause, how far ``spoilt`` would fall if
    that cause were sure not to be there."""

    defects: Mapping[str, float]
    spoilt: float
    due: Mapping[str, float]


def forecast(net: Network, chances: Mapping[str, float], leaks: float = 1.0) -> Forecast:
    """What is to be expected where causes are there with these chances, by id; one that is not named is not there.
    ``leaks`` multiplies the leak of every defect."""
    spared = {cause: _spares(net, cause, chance) for cause, chance in chances.items()}
    none = prod(spared.values()) * prod(1.0 - leaks * node.leak[0] for node in net.defects.values())
    defects = {defect: _defect(net, defect, chances, leaks) for defect in net.defects}
    due = {cause: none / spare - none if spare > 0.0 else 1.0 - none for cause, spare in spared.items()}
    return Forecast(defects, 1.0 - none, due)


def behind(net: Network, defect: str, chances: Mapping[str, float]) -> list[tuple[str, float]]:
    """The causes of a defect, each with the chance that it is there and brings it on; the likeliest first."""
    links = net.defects[defect].links
    causes = ((net.causes[index], strength[0]) for index, strength in links.items())
    found = [(cause, chances.get(cause, 0.0) * strength) for cause, strength in causes]
    return sorted((pair for pair in found if pair[1] > 0.0), key=lambda pair: (-round(pair[1], 9), pair[0]))


def measure_for(net: Network, chances: Mapping[str, float], spoilt: float) -> float:
    """The number from 0 to 1 that all chances and leaks must be multiplied by, so that a press is spoilt with the
    chance ``spoilt``; 1 where even all of them do not spoil so many."""
    low, high = 0.0, 1.0
    if forecast(net, chances).spoilt <= spoilt:
        return 1.0
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        scaled = {cause: middle * chance for cause, chance in chances.items()}
        if forecast(net, scaled, middle).spoilt < spoilt:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def _spares(net: Network, cause: str, chance: float) -> float:
    """The chance that a cause spares every defect."""
    index = net.index[cause]
    idle = prod(1.0 - node.links[index][0] for node in net.defects.values() if index in node.links)
    return 1.0 - chance + chance * idle


def _defect(net: Network, defect: str, chances: Mapping[str, float], leaks: float) -> float:
    node = net.defects[defect]
    spared = 1.0 - leaks * node.leak[0]
    for index, strength in node.links.items():
        spared *= 1.0 - chances.get(net.causes[index], 0.0) * strength[0]
    return 1.0 - spared
