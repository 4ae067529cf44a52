"""From a measured colour difference to the defects of the knowledge that it looks like, and what brings them on."""

from collections.abc import Iterable
from dataclasses import dataclass

from diagnose.knowledge.model import Cause, Defect, Knowledge
from diagnose.press.colour import judging
from diagnose.press.colour.judging import Sign

DEFECTS = {
    judging.WEAKER: ("faint-colour", "poor-uptake"),
    judging.STRONGER: ("too-dark",),
    judging.DULLER: ("haze", "colour-cast"),
    judging.TURNED: ("colour-cast",),
    judging.YELLOWED: ("yellowed-ground", "scorching"),
    judging.TINTED: ("tinted-surround", "stray-dye"),
    judging.BROWNED: ("browned-blacks", "colour-cast"),
}
WASHED = {judging.WEAKER: ("wash-out",), judging.TINTED: ("migration",)}  # where the piece was right before the wash
MOST_CAUSES = 4


@dataclass(frozen=True, slots=True)
class Lead:
    """A kind of fault with the defects it looks like, and the causes that most often bring on the first of them."""

    sign: Sign
    defects: tuple[Defect, ...]
    causes: tuple[Cause, ...]


def leads(knowledge: Knowledge, signs: Iterable[Sign], *, washed: bool = False) -> tuple[Lead, ...]:
    """What each sign leads to, the strongest first; nothing for a sign whose defects a shop has retired. ``washed``:
    the two colours are one piece before and after the wash."""
    found = []
    for sign in signs:
        ids = WASHED.get(sign.kind, DEFECTS[sign.kind]) if washed else DEFECTS[sign.kind]
        defects = tuple(knowledge.defects[each] for each in ids if each in knowledge.defects)
        if defects:
            found.append(Lead(sign, defects, _causes(knowledge, defects[0])))
    return tuple(found)


def _causes(knowledge: Knowledge, defect: Defect) -> tuple[Cause, ...]:
    """Those behind it most often: how often each turns up times how surely it brings the defect on."""
    weights: dict[str, float] = {}
    for rule in defect.rules:
        weight = rule.brings.value * knowledge.causes[rule.cause].turns_up.value
        weights[rule.cause] = max(weight, weights.get(rule.cause, 0.0))
    return tuple(knowledge.causes[cause] for cause in sorted(weights, key=lambda each: -weights[each])[:MOST_CAUSES])
