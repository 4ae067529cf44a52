"""A problem with its place, what was expected and how to mend it; the collector; the one error type."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field


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
        return f"{self.place}: " + " - ".join(part for part in parts if part)


class PressloreError(Exception):
    """The one error that reaches the user: it carries the problems to show, and never a traceback."""

    def __init__(self, problems: Iterable[Problem] | str) -> None:
        if isinstance(problems, str):
            self.problems: tuple[Problem, ...] = ()
            message = problems
        else:
            self.problems = tuple(sorted(problems, key=lambda p: (p.place, p.code)))
            message = "\n".join(str(problem) for problem in self.problems)
        super().__init__(message)


@dataclass(slots=True)
class Collector:
    """Gathers problems so that all of them are reported together."""

    problems: list[Problem] = field(default_factory=list)

    def add(self, place: Place, code: str, wrong: str, *, expected: str = "", hint: str = "") -> None:
        self.problems.append(Problem(place=place, code=code, wrong=wrong, expected=expected, hint=hint))

    def __iter__(self) -> Iterator[Problem]:
        return iter(sorted(self.problems, key=lambda p: (p.place, p.code)))

    def __bool__(self) -> bool:
        return bool(self.problems)

    def raise_if_any(self) -> None:
        """Raise PressloreError with everything found so far, if anything was."""
        if self.problems:
            raise PressloreError(self.problems)
