"""From a casebook's patterns to its numbers: the shop's overall ones first, then those of its kinds of jobs."""

from dataclasses import dataclass

from diagnose.casebook.learning.fitting import ENOUGH, Fitted, Held, fit
from diagnose.casebook.learning.kinds import families, presses, split
from diagnose.casebook.learning.material import Patterns
from diagnose.casebook.learning.numbers import KNOWN, Ints, Numbers, Parameters, TurnUp
from diagnose.pace import Far, unheard


@dataclass(frozen=True, slots=True)
class Climb:
    """One climb: what each turn-up is about, (nets, causes) the place of each cause's, and where it ended."""

    turns_up: tuple[TurnUp, ...]
    turn_of: Ints
    fitted: Fitted


@dataclass(frozen=True, slots=True)
class Learnt:
    """``climbs``: the overall numbers first; then families and presses have turn-ups of their own, as far as their
    cases suffice, which come behind the overall ones. ``cases``: how many were learnt from."""

    climbs: tuple[Climb, ...]
    cases: float

    @property
    def turns_up(self) -> tuple[TurnUp, ...]:
        return self.climbs[-1].turns_up

    @property
    def numbers(self) -> Numbers:
        return self.climbs[-1].fitted.numbers

    @property
    def overall(self) -> Numbers:
        return self.climbs[0].fitted.numbers


def learn(material: Patterns, parameters: Parameters, start: Numbers | None = None, far: Far = unheard) -> Learnt:
    """The numbers, from the shipped ones; from ``start`` saves steps where those are near."""
    cases, turn_of = sum(material.cases), material.nets.turns_up
    known = [place for place, turn in enumerate(parameters.turns_up) if turn.shape == KNOWN]
    rules = sum(link.rule >= 0 for link in parameters.links)
    turns_up, held = parameters.turns_up, Held.shipped(parameters.shipped, rules, known)
    start = start or parameters.shipped
    fitted = fit(start, material.expect(start, turn_of), held, turn_of, material.expect, ENOUGH * cases)
    climbs = [Climb(turns_up, turn_of, fitted)]
    for number, kinds in enumerate((families, presses), 1):
        far(number / 3)
        own = kinds(material.kinds, material.cases)
        if any(own):
            parts = split(turns_up, turn_of, fitted, held, own)
            turns_up, turn_of, held = parts.turns_up, parts.turn_of, parts.held
            fitted = fit(parts.numbers, fitted.expected, held, turn_of, material.expect, ENOUGH * cases)
            climbs.append(Climb(turns_up, turn_of, fitted))
    far(1.0)
    return Learnt(tuple(climbs), cases)
