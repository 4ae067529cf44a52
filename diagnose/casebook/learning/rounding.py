"""Numbers as they will be written, and which of them are worth writing."""

from math import log

from diagnose.knowledge.model import Chance

MOVED = 0.05  # in log odds: a number that moved less stays as it is
DIGITS = 3  # significant, of a written number


def rounded(chance: float) -> float:
    return float(f"{chance:.{DIGITS}g}")


def moved(old: float, new: float, least: float = MOVED) -> bool:
    """Whether a chance moved by ``least`` or more in log odds."""
    if not (0.0 < old < 1.0 and 0.0 < new < 1.0):
        return old != new
    return abs(log(new / (1.0 - new)) - log(old / (1.0 - old))) >= least


def settled(old: Chance, new: float) -> Chance:
    """The chance as it will stand: the old one unless it moved."""
    return Chance(rounded(new)) if moved(old.value, rounded(new)) else old


def divergence(new: float, old: float) -> float:
    """The relative entropy of one chance to another, in nats; kept finite."""
    result = 0.0
    for p, q in ((new, old), (1.0 - new, 1.0 - old)):
        if p > 0.0:
            result += p * log(p / max(q, 1e-9))
    return result
