"""What measured figures say of causes, ready to be weighed with everything else."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.foresight.figures import FIGURES, Figure
from diagnose.foresight.likelihood import ratio
from diagnose.foresight.measures import FORMULAS, Bench, Taken, Told, taken
from diagnose.knowledge.measures import Measure
from diagnose.knowledge.model import Item, Knowledge

PLATEN, STACK = "platen-gap", "stack-gap"


@dataclass(frozen=True, slots=True)
class Reading:
    """A measure that was taken, and what it says: for each cause how many times as often such a figure shows where
    the cause is there. ``settles``: the checks that need no answer any more."""

    taken: Taken
    measure: Measure
    ratios: Mapping[str, float]
    settles: tuple[str, ...]

    @property
    def id(self) -> str:
        return self.taken.measure


def readings(told: Told, item: Item | None, knowledge: Knowledge) -> tuple[Reading, ...]:
    """The readings that some figures make, in the order of the knowledge; a measure that a shop has retired says
    nothing."""
    found = {each.measure: each for each in taken(told, item, knowledge)}
    return tuple(
        Reading(found[measure.id], measure, _ratios(found, measure, knowledge), measure.settles)
        for measure in knowledge.readings.values()
        if measure.id in found
    )


def asked_by(check: str, item: Item | None, knowledge: Knowledge) -> Figure | None:
    """The figure that may be told in answer to a check, None where there is none, or where it would say nothing of this
    item."""
    for measure in knowledge.readings.values():
        formula = FORMULAS[measure.id]
        if check in measure.settles and formula.own in FIGURES and formula.serves(Bench(item, knowledge)):
            return FIGURES[formula.own]
    return None


def _ratios(found: Mapping[str, Taken], measure: Measure, knowledge: Knowledge) -> dict[str, float]:
    """A strip in the stack is held against a platen as the probe found it, where there was one: it then has nothing
    more to say of what the probe speaks of."""
    platen = knowledge.readings.get(PLATEN) if measure.id == STACK and PLATEN in found else None
    probed = platen.speaks if platen else {}
    value = found[measure.id].value
    return {
        cause: ratio(value, says, measure.error)
        for cause, says in measure.speaks.items()
        if cause not in probed and cause in knowledge.causes
    }
