"""What would change, number by number, each with how many cases speak of it."""

from collections.abc import Iterator
from dataclasses import dataclass

from diagnose.casebook.learning.applying import Applying
from diagnose.casebook.learning.fitting import by_turn
from diagnose.casebook.learning.numbers import USUAL, Cure, Link, TurnUp
from diagnose.casebook.learning.rounding import divergence
from diagnose.knowledge.conditions import ALWAYS, Condition
from diagnose.knowledge.learned import same_rule
from diagnose.knowledge.model import Chance
from diagnose.knowledge.numbers import Learned

TURNS_UP, BRINGS, SHOWS, CURES = "turns up", "brings on", "shows", "cures"


@dataclass(frozen=True, slots=True, kw_only=True)
class ChanceChange:
    """A chance that changes. ``kind`` is one of the four above; ids that play no part are "". ``cases``: how many speak
    of it (a whole number for turn-ups, else expected: in so many the cause was there); ``held``: in how many of
    them it was so, as far as can be told."""

    kind: str
    cause: str
    defect: str = ""
    check: str = ""
    outcome: str = ""
    fix: str = ""
    condition: Condition = ALWAYS
    old: Chance
    new: Chance
    cases: float
    held: float

    @property
    def gain(self) -> float:
        """About how many nats the cases gain by it."""
        return self.cases * divergence(self.new.value, self.old.value)


def changes(applying: Applying, learned: Learned) -> list[ChanceChange]:
    """All chances that change, the weightiest first."""
    stated = _Stated(applying)
    found = [*stated.turns(learned), *stated.rules(learned), *stated.shows(learned), *stated.cures(learned)]
    return sorted(found, key=lambda change: -change.gain)


class _Stated:
    """Learnt numbers with the cases behind them."""

    def __init__(self, applying: Applying) -> None:
        self.applying, self.knowledge = applying, applying.knowledge
        self.expected, self.at = applying.learnt.climbs[-1].fitted.expected, applying.parameters.at
        self.turned: dict[TurnUp, tuple[float, float]] = {}
        known = 0
        for climb in applying.learnt.climbs:
            there = by_turn(climb.turn_of, climb.fitted.expected.there, len(climb.turns_up))
            cases = by_turn(climb.turn_of, climb.fitted.expected.cases, len(climb.turns_up))
            for place in range(known, len(climb.turns_up)):
                self.turned[climb.turns_up[place]] = float(cases[place]), float(there[place])
            known = len(climb.turns_up)

    def turns(self, learned: Learned) -> Iterator[ChanceChange]:
        turning_up = self.applying.turning_up()
        for key, learnt in learned.causes.items():
            cause = self.knowledge.causes[key]
            if learnt.turns_up:
                yield self._turn(TurnUp(key), ALWAYS, cause.turns_up, learnt.turns_up)
            for turn, shape in turning_up.shapes(cause):
                old = cause.turns_up if turn.shape == USUAL else cause.shapes[turn.shape].turns_up
                if turn.family or shape.turns_up != old:
                    yield self._turn(turn, shape.condition, old, shape.turns_up)

    def _turn(self, turn: TurnUp, condition: Condition, old: Chance, new: Chance) -> ChanceChange:
        cases, held = self.turned[turn]
        return ChanceChange(
            kind=TURNS_UP, cause=turn.cause, condition=condition, old=old, new=new, cases=cases, held=held
        )

    def rules(self, learned: Learned) -> Iterator[ChanceChange]:
        for learnt in learned.rules:
            defect = self.knowledge.defects[learnt.defect]
            number = next(place for place, rule in enumerate(defect.rules) if same_rule(rule, learnt))
            rule, place = defect.rules[number], self.at[Link(defect.id, learnt.cause, number)]
            cases, held = self._link(place, 0)
            yield ChanceChange(
                kind=BRINGS, cause=learnt.cause, defect=defect.id, condition=rule.condition,
                old=rule.brings, new=learnt.brings, cases=cases, held=held,
            )  # fmt: skip

    def shows(self, learned: Learned) -> Iterator[ChanceChange]:
        for key, learnt in learned.checks.items():
            check = self.knowledge.checks[key]
            levels = {outcome.id: level for level, outcome in enumerate(check.outcomes[1:])}
            for outcome, shows in learnt.shows.items():
                for cause, new in shows.items():
                    cases, held = self._link(self.at[Link(key, cause)], levels[outcome])
                    yield ChanceChange(
                        kind=SHOWS, cause=cause, check=key, outcome=outcome,
                        old=check.outcome(outcome).shows[cause], new=new, cases=cases, held=held,
                    )  # fmt: skip

    def cures(self, learned: Learned) -> Iterator[ChanceChange]:
        for key, learnt in learned.fixes.items():
            for cause, new in learnt.cures.items():
                place = self.at[Cure(key, cause)]
                yield ChanceChange(
                    kind=CURES, cause=cause, fix=key, old=self.knowledge.fixes[key].cures[cause], new=new,
                    cases=float(self.expected.tried[place]), held=float(self.expected.cured[place]),
                )  # fmt: skip

    def _link(self, place: int, level: int) -> tuple[float, float]:
        """Cases in which the cause was there for the finding, and in which it picked that level, as far as seen."""
        expected = self.expected
        return float(expected.quiet[place] + expected.loud[place].sum()), float(expected.fired[place, level])
