"""A casebook in memory, with what learning asks of one."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from statistics import fmean, variance

from diagnose.casebook.case import Case
from diagnose.casebook.store.rows import alike


@dataclass
class Shelved:
    """Cases in a list."""

    kept: list[Case] = field(default_factory=list)

    @classmethod
    def of(cls, cases: Iterable[Case]) -> "Shelved":
        return cls(list(cases))

    def count(self) -> int:
        return len(self.kept)

    def get(self, case_id: str) -> Case | None:
        return next((case for case in self.kept if case.id == case_id), None)

    def _groups(self) -> Mapping[object, list[Case]]:
        groups: dict[object, list[Case]] = {}
        for case in self.kept:
            groups.setdefault((case.press, repr(alike(case))), []).append(case)
        return groups

    def alike(self, case_id: str) -> list[str]:
        return next(sorted(c.id for c in g) for g in self._groups().values() if case_id in {c.id for c in g})

    def newest(self, most: int) -> list[Case]:
        return self.kept[::-1][:most]

    def patterns(self) -> Iterator[tuple[Case, int]]:
        yield from ((group[0], len(group)) for group in self._groups().values())

    def times(self) -> Mapping[str, tuple[int, float, float]]:
        taken: dict[str, list[float]] = {}
        for case in self.kept:
            for step, minutes in case.took.items():
                taken.setdefault(step, []).append(minutes)
        return {s: (len(t), fmean(t), variance(t) if len(t) > 1 else 0.0) for s, t in sorted(taken.items())}
