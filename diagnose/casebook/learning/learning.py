"""From a casebook's patterns to its numbers: the shop's overall ones first, then those of its kinds of jobs."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from diagnose.casebook.learning.expecting import Expected, expect
from diagnose.casebook.learning.fitting import ENOUGH, Fitted, Held, fit
from diagnose.casebook.learning.kinds import families, presses, split
from diagnose.casebook.learning.material import Material
from diagnose.casebook.learning.numbers import Numbers, Parameters, Turn
from diagnose.casebook.learning.tables import Nets

Expect = Callable[[Numbers, Nets], Expected]


@dataclass(frozen=True, slots=True)
class Learnt:
    """``turns_up``: what each turn-up is about; those of kinds of jobs come behind the overall ones. ``overall`` is what
    was expected before kinds had numbers of their own, ``expected`` at the end. ``cases``: how many were learnt
    from."""

    turns_up: tuple[Turn, ...]
    numbers: Numbers
    overall: Expected
    expected: Expected
    nets: Nets
    cases: float
    climbed: tuple[tuple[float, ...], ...]


def learn(material: Material, parameters: Parameters, start: Numbers | None = None, using: Expect | None = None) -> Learnt:
    """The numbers, from the shipped ones or from ``start`` (which only saves steps). ``using``: the E-step over all
    of the material, where it is not all here."""
    nets, cases = material.nets, sum(material.cases)
    rules = sum(link.rule >= 0 for link in parameters.links)

    def climb(numbers: Numbers, held: Held, nets: Nets) -> Fitted:
        step = (lambda now: using(now, nets)) if using else (lambda now: expect(material.tables, nets, now))
        return fit(numbers, held, nets.turns_up, step, ENOUGH * cases)

    turns_up, held = parameters.turns_up, Held.shipped(parameters.shipped, rules)
    fitted = climb(start or parameters.shipped, held, nets)
    overall, climbed = fitted.expected, [fitted.climbed]
    for kinds in (families, presses):
        own = kinds(material.kinds, material.cases)
        if any(own):
            parts = split(turns_up, nets.turns_up, fitted.numbers, held, own)
            turns_up, held, nets = parts.turns_up, parts.held, replace(nets, turns_up=parts.turn_of)
            fitted = climb(parts.numbers, held, nets)
            climbed.append(fitted.climbed)
    return Learnt(turns_up, fitted.numbers, overall, fitted.expected, nets, cases, tuple(climbed))
