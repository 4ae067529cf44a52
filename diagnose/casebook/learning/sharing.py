"""Learning from a large casebook with two processes: each enters half of the patterns and expects for its half."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from multiprocessing import get_context
from multiprocessing.connection import Connection
from typing import Any

import numpy as np

from diagnose.casebook.case import Case
from diagnose.casebook.learning.expecting import Expected
from diagnose.casebook.learning.jobs import Jobs
from diagnose.casebook.learning.material import Gathering, JobKind, Tabled
from diagnose.casebook.learning.numbers import Ints, Numbers
from diagnose.casebook.learning.tables import Nets
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.problems import PressloreError

AT_ONCE = 500  # patterns sent together


@dataclass(slots=True)
class SharedGathering:
    """Gathers like ``Gathering``, in turns here and in the other process."""

    own: Gathering
    other: Connection
    _waiting: list[tuple[Case, float]] = field(default_factory=list)
    _turn: bool = False
    _sent: float = 0.0

    @property
    def cases(self) -> float:
        return self.own.cases + self._sent

    def add(self, case: Case, count: float) -> None:
        self._turn = not self._turn
        if self._turn:
            self.own.add(case, count)
            return
        self._sent += count
        self._waiting.append((case, count))
        if len(self._waiting) >= AT_ONCE:
            self._send()

    def _send(self) -> None:
        _put(self.other, self._waiting)
        self._waiting = []

    def done(self) -> "SharedMaterial":
        self._send()
        own = self.own.done()
        _put(self.other, None)
        nets, kinds, cases, left_out = _got(self.other)
        return SharedMaterial(own, Nets.joined(own.nets, nets), (*own.kinds, *kinds), (*own.cases, *cases),
                              own.left_out + left_out, self.other)  # fmt: skip


@dataclass(frozen=True, slots=True)
class SharedMaterial:
    """Material in both processes: this one's nets come first."""

    own: Tabled
    nets: Nets
    kinds: tuple[JobKind, ...]
    cases: tuple[float, ...]
    left_out: float
    other: Connection

    def expect(self, numbers: Numbers, turn_of: Ints) -> Expected:
        mine = len(self.own.kinds)
        _put(self.other, (numbers, turn_of[mine:]))
        total = self.own.expect(numbers, turn_of[:mine])
        theirs: Expected = _got(self.other)
        total.there, theirs.there = np.concatenate([total.there, theirs.there]), np.zeros(1)
        total.cases, theirs.cases = np.concatenate([total.cases, theirs.cases]), np.zeros(1)
        total.add(theirs)
        return total


@contextmanager
def sharing(jobs: Jobs) -> Iterator[SharedGathering]:
    """A gathering shared with another process, which ends with the block."""
    spawning = get_context("spawn")
    here, there = spawning.Pipe()
    process = spawning.Process(target=_work, args=(jobs.knowledge, jobs.shop, there), daemon=True)
    process.start()
    there.close()
    try:
        yield SharedGathering(Gathering(jobs), here)
    finally:
        here.close()
        process.join(5.0)
        process.kill()
        process.join()


def _work(knowledge: Knowledge, shop: Shop, pipe: Connection) -> None:
    """The other process: patterns come in lists, None asks what there is, numbers ask what is expected."""
    gathering = Gathering(Jobs.of(knowledge, shop))
    material = gathering.done()
    while True:
        try:
            asked = pipe.recv()
        except EOFError:
            return
        if isinstance(asked, list):
            for case, count in asked:
                gathering.add(case, count)
        elif asked is None:
            material = gathering.done()
            pipe.send((material.nets, material.kinds, material.cases, material.left_out))
        else:
            pipe.send(material.expect(*asked))


def _put(pipe: Connection, value: object) -> None:
    try:
        pipe.send(value)
    except OSError as error:
        raise PressloreError(STOPPED) from error


def _got(pipe: Connection) -> Any:
    try:
        return pipe.recv()
    except (EOFError, OSError) as error:
        raise PressloreError(STOPPED) from error


STOPPED = "the second process that learns has stopped: there may not be memory enough; try again with less running"
