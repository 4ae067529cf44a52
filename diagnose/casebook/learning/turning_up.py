"""How often causes turn up, as a shop's folder says it: the cause's own list, with kinds of jobs before what they refine."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from diagnose.casebook.learning.jobs import FAMILY, PRESS
from diagnose.casebook.learning.numbers import USUAL, Numbers, Turn
from diagnose.casebook.learning.rounding import moved, rounded, settled
from diagnose.knowledge.conditions import ALWAYS, Condition, Test
from diagnose.knowledge.learned import LearnedCause
from diagnose.knowledge.model import Cause, Chance, Knowledge, Shape
from diagnose.problems import Place

OF_A_KIND_MOVED = 0.2  # in log odds: a kind of jobs whose number is nearer to the shop's overall one has none of its own


@dataclass(slots=True)
class TurningUp:
    """The learnt turn-ups by what they are about."""

    knowledge: Knowledge
    turns_up: Sequence[Turn]
    numbers: Numbers
    _value: dict[Turn, float]
    _kinds: dict[tuple[str, int], list[Turn]]

    @classmethod
    def of(cls, knowledge: Knowledge, turns_up: Sequence[Turn], numbers: Numbers) -> "TurningUp":
        value = dict(zip(turns_up, map(float, numbers.turns_up), strict=True))
        result = cls(knowledge, turns_up, numbers, value, {})
        for turn in turns_up:
            if turn.family and (not turn.press or PRESS in knowledge.facts) and result._differs(turn):
                result._kinds.setdefault((turn.cause, turn.shape), []).append(turn)
        return result

    def causes(self, place: Place) -> dict[str, LearnedCause]:
        """The causes of which something is learnt."""
        learnt = {cause.id: self._cause(cause, place) for cause in self.knowledge.causes.values()}
        return {key: each for key, each in learnt.items() if each.turns_up or each.shapes}

    def _cause(self, cause: Cause, place: Place) -> LearnedCause:
        usual = settled(cause.turns_up, self._value[Turn(cause.id)])
        shapes = tuple(self._shapes(cause))
        return LearnedCause(
            turns_up=usual if usual != cause.turns_up else None,
            shapes=shapes if shapes != cause.shapes else None,
            place=place,
        )

    def _shapes(self, cause: Cause) -> Iterator[Shape]:
        for number, shape in enumerate(cause.shapes):
            yield from self._of_a_kind(cause.id, number, shape.condition)
            yield replace(shape, turns_up=settled(shape.turns_up, self._value[Turn(cause.id, number)]))
        yield from self._of_a_kind(cause.id, USUAL, ALWAYS)

    def _of_a_kind(self, cause: str, shape: int, condition: Condition) -> Iterator[Shape]:
        """Those of one press first, since they ask for more."""
        for turn in sorted(self._kinds.get((cause, shape), ()), key=lambda turn: (not turn.press, turn.family, turn.press)):
            yield Shape(condition=_narrowed(condition, turn), turns_up=Chance(rounded(self._value[turn])))

    def _differs(self, turn: Turn) -> bool:
        """Whether a kind of jobs is far enough from what its number was drawn to."""
        parents = (replace(turn, press="") if turn.press else turn, replace(turn, family="", press=""))
        parent = next(one for one in parents if one != turn and one in self._value)
        return moved(self._value[parent], self._value[turn], OF_A_KIND_MOVED)


def _narrowed(condition: Condition, turn: Turn) -> Condition:
    wanted = {FAMILY: turn.family, PRESS: turn.press}
    own = [Test(fact, (value,), written=value) for fact, value in wanted.items() if value]
    return Condition((*[test for test in condition.tests if test.fact != FAMILY], *own))
