"""The best division of a text as a whole: which runs of words tell what, and which are idle (Viterbi 1967)."""

from collections.abc import Collection, Sequence
from typing import NamedTuple

from diagnose.reasoning.words.runs import NEVER, Said, Spoken, Stretch, order

IDLE = -1
FEW = 3  # tokens of a clause that says little else than names


def divided(
    spoken: Spoken, first: float, further: float, taken: Collection[int] = (), named: Sequence[Stretch] = ()
) -> list[Stretch]:
    """What the text tells, each class once, the strongest first. ``first``: what the first thing told must be worth;
    ``further``: the same for each other. ``taken``: tokens told already; ``named``: runs that are worth more than
    their words say."""
    free = [place not in taken for place in range(len(spoken.tokens))]
    names = [run for run in named if all(free[run.first : run.last])]
    told = sorted({*(each for each in spoken.own if spoken.most(each) >= first), *(run.told for run in names)})
    said = {each: spoken.said(each, free, others=_of_others(spoken, names, each)) for each in told}
    best = dict[int, Stretch]()
    for run in sorted(Dividing(free, said, names, first, further).runs(), key=order):
        best.setdefault(run.told, run)
    return list(best.values())


def _of_others(spoken: Spoken, named: Sequence[Stretch], told: int) -> set[int]:
    """The tokens that are all of a clause but a few, a name of another class, and of this one not."""
    own = {place for run in named if run.told == told for place in range(run.first, run.last)}
    few = {place for place, size in enumerate(map(spoken.size, range(len(spoken.tokens)))) if size <= FEW}
    return {place for run in named if run.told != told for place in range(run.first, run.last)} & few - own


class _Open(NamedTuple):
    """A run that has come up to (without) the token ``last``: what all is worth with it, and where it began."""

    worth: float
    first: int
    last: int


class Dividing:
    """Token by token: ``worth`` of all before it where something has been told, by the run in ``back``; ``entry``: what
    a run that begins there starts from; ``going``: the best run of each class that may go on."""

    def __init__(
        self, free: Sequence[bool], said: dict[int, Said], named: Sequence[Stretch], first: float, further: float
    ) -> None:
        self.free, self.said, self.named, self.first, self.further = free, said, named, first, further
        self.worth, self.entry, self.back = [NEVER], list[float](), [Stretch(IDLE, 0.0, 0, 0)]
        self.going = dict[int, _Open]()

    def runs(self) -> list[Stretch]:
        """The runs that tell something, the last first."""
        for place, free in enumerate(self.free):
            self.entry.append(max(-self.first, self.worth[place] - self.further))
            if free:
                self._go_on(place)
                self._take_names(place + 1)
            self._close(place + 1)
        return self._followed() if self.worth[-1] > 0.0 else []

    def _go_on(self, place: int) -> None:
        for told, said in self.said.items():
            if not said.begins <= place < said.ends:
                continue
            going, last = self.going.get(told), place + 1
            begun = _Open(self.entry[place] + said.begin[place], place, last)
            on = going.worth + said.on[place] if going and going.last == place else NEVER
            self.going[told] = _Open(on, going.first, last) if going and on >= begun.worth else begun

    def _take_names(self, last: int) -> None:
        for run in self.named:
            if run.last == last:
                going, named = self.going.get(run.told), _Open(self.entry[run.first] + run.gain, run.first, last)
                if not going or going.last < last or named.worth > going.worth:
                    self.going[run.told] = named

    def _close(self, last: int) -> None:
        worth, back = self.worth[last - 1], Stretch(IDLE, 0.0, last - 1, last)
        for told, said in self.said.items():
            going = self.going.get(told)
            if going and going.last == last and going.worth + said.end[last] > worth:
                worth = going.worth + said.end[last]
                back = Stretch(told, worth - self.entry[going.first], going.first, last)
        self.worth.append(worth)
        self.back.append(back)

    def _followed(self) -> list[Stretch]:
        found, last = list[Stretch](), len(self.free)
        while last and self.worth[last] > NEVER:
            run = self.back[last]
            last = run.first
            if run.told != IDLE:
                found.append(run)
                last = last if self.worth[last] - self.further > -self.first else 0
        return found
