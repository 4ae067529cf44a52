"""How often causes turn up, as a shop's folder says it: the cause's own list, kinds of jobs before what they refine."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from diagnose.casebook.learning.jobs import FAMILY, PRESS
from diagnose.casebook.learning.numbers import USUAL, Numbers, TurnUp
from diagnose.casebook.learning.rounding import moved, rounded, settled
from diagnose.knowledge.conditions import ALWAYS, Condition, Test
from diagnose.knowledge.model import Cause, Chance, Knowledge, Shape
from diagnose.knowledge.numbers import LearnedCause
from diagnose.problems import Place


@dataclass(frozen=True, slots=True)
class TurningUp:
    """The learnt turn-ups. ``kinds``: by cause and shape, those of kinds of jobs that differ enough; of one press
    first, since they ask for more."""

    knowledge: Knowledge
    value: Mapping[TurnUp, float]
    kinds: Mapping[tuple[str, int], Sequence[TurnUp]]

    @classmethod
    def of(cls, knowledge: Knowledge, turns_up: Sequence[TurnUp], numbers: Numbers) -> "TurningUp":
        value = dict(zip(turns_up, map(float, numbers.turns_up), strict=True))
        kinds: dict[tuple[str, int], list[TurnUp]] = {}
        for turn in sorted(turns_up, key=lambda turn: (not turn.press, turn.family, turn.press)):
            known = not turn.press or PRESS in knowledge.facts
            if turn.family and known and moved(value[drawn_to(turn, value)], value[turn]):
                kinds.setdefault((turn.cause, turn.shape), []).append(turn)
        return cls(knowledge, value, kinds)

    def causes(self, place: Place) -> dict[str, LearnedCause]:
        """The causes of which something is learnt."""
        learnt = {cause.id: self._cause(cause, place) for cause in self.knowledge.causes.values()}
        return {key: each for key, each in learnt.items() if each.turns_up or each.shapes}

    def usual(self, cause: Cause) -> Chance:
        return settled(cause.turns_up, self.value[TurnUp(cause.id)])

    def shapes(self, cause: Cause) -> Iterator[tuple[TurnUp, Shape]]:
        """The cause's shapes as they will be, and which turn-up each is."""
        for number, shape in [*enumerate(cause.shapes), (USUAL, None)]:
            condition = shape.condition if shape else ALWAYS
            for turn in self.kinds.get((cause.id, number), ()):
                yield turn, Shape(condition=_narrowed(condition, turn), turns_up=Chance(rounded(self.value[turn])))
            if shape:
                turn = TurnUp(cause.id, number)
                yield turn, replace(shape, turns_up=settled(shape.turns_up, self.value[turn]))

    def _cause(self, cause: Cause, place: Place) -> LearnedCause:
        usual, shapes = self.usual(cause), tuple([shape for _, shape in self.shapes(cause)])
        return LearnedCause(
            turns_up=usual if usual != cause.turns_up else None,
            shapes=shapes if shapes != cause.shapes else None,
            place=place,
        )


def drawn_to(turn: TurnUp, known: Collection[TurnUp]) -> TurnUp:
    """The turn-up that a kind's own was drawn to: its family's, or the overall one."""
    family = replace(turn, press="")
    return family if turn.press and family in known else replace(turn, family="", press="")


def _narrowed(condition: Condition, turn: TurnUp) -> Condition:
    wanted = {FAMILY: turn.family, PRESS: turn.press}
    own = [Test(fact, (value,), written=value) for fact, value in wanted.items() if value]
    return Condition((*[test for test in condition.tests if test.fact != FAMILY], *own))
