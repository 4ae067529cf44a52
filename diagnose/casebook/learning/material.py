"""The casebook's patterns, entered on sheets and ready to learn from."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Protocol

from diagnose.casebook.case import Case
from diagnose.casebook.learning.expecting import Expected, expect
from diagnose.casebook.learning.jobs import FAMILY, PRESS, Jobs, Wiring, known, shown
from diagnose.casebook.learning.numbers import Ints, Numbers
from diagnose.casebook.learning.sheets import LinkLists, Sheet, SheetEntry, width
from diagnose.casebook.learning.tables import Nets, SheetTable, table

AT_ONCE, LARGEST = 1 << 16, 4096  # of a sheet: sets of findings in all its patterns together; patterns
MOST_LOUD = 14  # findings of one case that the sweep keeps open at a time


class CaseSource(Protocol):
    """What learning asks of a casebook."""

    def count(self) -> int: ...
    def get(self, case_id: str) -> Case | None: ...
    def alike(self, case_id: str) -> list[str]: ...
    def patterns(self) -> Iterator[tuple[Case, int]]: ...
    def newest(self, most: int) -> list[Case]: ...
    def times(self) -> Mapping[str, tuple[int, float, float]]: ...


@dataclass(frozen=True, slots=True)
class JobKind:
    """The jobs that have numbers of their own together: a family of items, on one press. "" where unknown."""

    family: str = ""
    press: str = ""


class Patterns(Protocol):
    """Patterns ready to learn from. ``kinds`` and ``cases``: of each net, its kind and its number of cases.
    ``left_out``: cases with nothing seen, or with more than ``MOST_LOUD`` loud findings."""

    @property
    def nets(self) -> Nets: ...
    @property
    def kinds(self) -> tuple[JobKind, ...]: ...
    @property
    def cases(self) -> tuple[float, ...]: ...
    @property
    def left_out(self) -> float: ...
    def expect(self, numbers: Numbers, turn_of: Ints) -> Expected:
        """The E-step over all of it; ``turn_of``: (nets, causes), the place of each cause's turn-up."""


@dataclass(frozen=True, slots=True)
class Tabled:
    """Material in this process."""

    tables: tuple[SheetTable, ...]
    nets: Nets
    kinds: tuple[JobKind, ...]
    cases: tuple[float, ...]
    left_out: float = 0.0

    def expect(self, numbers: Numbers, turn_of: Ints) -> Expected:
        return expect(self.tables, replace(self.nets, turns_up=turn_of), numbers)


@dataclass(slots=True)
class Gathering:
    """Patterns on their way to sheets."""

    jobs: Jobs
    left_out: float = 0.0
    _links: LinkLists = field(default_factory=LinkLists)
    _sheets: dict[int, Sheet] = field(default_factory=dict)
    _tables: list[SheetTable] = field(default_factory=list)
    _nets: dict[tuple[object, JobKind], int] = field(default_factory=dict)
    _wirings: list[Wiring] = field(default_factory=list)
    _cases: list[float] = field(default_factory=list)

    @property
    def cases(self) -> float:
        """How many cases can be learnt from."""
        return sum(self._cases)

    def add(self, case: Case, count: float) -> None:
        """Enter a case that stands for so many; with a count below 0, so many are taken off again."""
        job = self.jobs.job(case)
        wiring = self.jobs.wiring(job)
        evidence = known(shown(case, self.jobs.knowledge), wiring)
        louds = width(evidence, wiring)
        if not evidence.seen or louds > MOST_LOUD:
            self.left_out += count
            return
        net = self._net(wiring, JobKind(str(job.get(FAMILY, "")), str(job.get(PRESS, ""))))
        self._cases[net] += count
        sheet = self._sheets.setdefault(louds, Sheet(louds))
        SheetEntry(wiring, net, evidence, count).put(sheet, self._links)
        if len(sheet.count) >= LARGEST or len(sheet.count) << louds >= AT_ONCE:
            self._tables.append(self._table(self._sheets.pop(louds)))

    def _table(self, sheet: Sheet) -> SheetTable:
        return table(sheet, self._links, self.jobs.parameters.shipped.links.shape)

    def _net(self, wiring: Wiring, kind: JobKind) -> int:
        key = id(wiring), kind
        if key not in self._nets:
            self._nets[key] = len(self._wirings)
            self._wirings.append(wiring)
            self._cases.append(0.0)
        return self._nets[key]

    def done(self) -> Tabled:
        """All that was entered so far; more may follow."""
        tables = (*self._tables, *[self._table(self._sheets[louds]) for louds in sorted(self._sheets)])
        kinds = tuple(kind for _, kind in self._nets)
        return Tabled(tables, Nets.of(self._wirings), kinds, tuple(self._cases), self.left_out)
