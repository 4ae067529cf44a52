"""A problem with its place, what was expected and how to mend it; the collector; the one error type."""

from collections.abc import Callable, Container, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Final

MOST_SHOWN: Final = 100  # problems at once; nobody reads on
MOST_KEPT: Final = 1_000  # to choose those from; what a stranger's files can make of them has an end
MOST_HINTS: Final = 20  # that take work: with all that may be known, each can take a tenth of a second


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where something stands: a file, a line and a column, both counted from 1 (0 where unknown)."""

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        if not self.line:
            return self.file
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing that is wrong with what somebody wrote.

    ``code`` is a stable kebab-case name of the check that found it, ``wrong`` says what is there,
    ``expected`` what should be, ``hint`` (may be empty) how to mend it.
    """

    place: Place
    code: str
    wrong: str
    expected: str = ""
    hint: str = ""

    def __str__(self) -> str:
        parts = [self.wrong, f"expected {self.expected}" if self.expected else "", self.hint]
        return f"{self.place}: " + " - ".join(part for part in parts if part).replace("\n", r"\n")


class PressloreError(Exception):
    """The one error that reaches the user: it carries the problems to show, and never a traceback. ``more``: how many
    were found beyond those."""

    def __init__(self, problems: Iterable[Problem] | str, *, more: int = 0) -> None:
        if isinstance(problems, str):
            self.problems: tuple[Problem, ...] = ()
            message = problems
        else:
            self.problems, more = shown(problems, more)
            message = "\n".join([*map(str, self.problems), *([and_more(more)] if more else [])])
        super().__init__(message)


def shown(problems: Iterable[Problem], more: int = 0, first: Container[str] = ()) -> tuple[tuple[Problem, ...], int]:
    """The problems to show, at most ``MOST_SHOWN``, in the order of their places, and how many there are besides. Those
    in the files named ``first`` are chosen before others."""
    found = sorted(problems, key=lambda p: (p.place.file not in first, p.place, p.code))
    chosen = sorted(found[:MOST_SHOWN], key=lambda p: (p.place, p.code))
    return tuple(chosen), more + len(found) - len(chosen)


def and_more(more: int) -> str:
    """The line below the problems that are named: ``and 2,900 more; mend these first.``"""
    return f"and {more:,} more; mend these first."


@dataclass(slots=True)
class Collector:
    """Gathers problems so that they are reported together. The first ``most`` are kept, all beyond those are counted
    in ``more``; ``files`` names every file in which one stands, kept or not."""

    problems: list[Problem] = field(default_factory=list)
    more: int = 0
    files: set[str] = field(default_factory=set)
    most: int = MOST_KEPT
    _hints: int = 0

    @property
    def full(self) -> bool:
        """Whether what comes now is only counted."""
        return len(self.problems) >= self.most

    def add(
        self, place: Place, code: str, wrong: str, *, expected: str = "", hint: str | Callable[[], str] = ""
    ) -> None:
        """Add a problem. A hint that takes work is a function, called for the first few problems only."""
        told = hint if isinstance(hint, str) else self._worked_out(hint)
        self.take([Problem(place=place, code=code, wrong=wrong, expected=expected, hint=told)])

    def take(self, problems: Iterable[Problem], more: int = 0) -> None:
        """Add problems that were found elsewhere, with those that were only counted there."""
        self.more += more
        for problem in problems:
            self.files.add(problem.place.file)
            if self.full:
                self.more += 1
            else:
                self.problems.append(problem)

    def _worked_out(self, hint: Callable[[], str]) -> str:
        self._hints += 1
        return hint() if self._hints <= MOST_HINTS else ""

    def __iter__(self) -> Iterator[Problem]:
        return iter(sorted(self.problems, key=lambda p: (p.place, p.code)))

    def __bool__(self) -> bool:
        return bool(self.problems)

    def raise_if_any(self) -> None:
        """Raise PressloreError with everything found so far, if anything was."""
        if self.problems:
            raise PressloreError(self.problems, more=self.more)
