"""One line of a measurement's report."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """``name``: what was measured. ``measured``: the figure with its unit. ``limit``: what it must keep to, ""
    where it is only shown. ``ok``: whether it does, None where there is no limit."""

    name: str
    measured: str
    limit: str = ""
    ok: bool | None = None

    @classmethod
    def of(cls, given: "Row | Sequence[object]") -> "Row":
        """A row from itself, or from a plain (name, measured, limit, ok), of which the last may be missing."""
        if isinstance(given, Row):
            return given
        usual: tuple[object, ...] = ("", "", "", None)
        name, measured, limit, ok = (*given, *usual[len(given) :])
        return cls(str(name), str(measured), str(limit or ""), None if ok is None else bool(ok))

    @property
    def verdict(self) -> str:
        if self.ok is False:
            return "MISSED"
        return "ok" if self.ok and self.limit else ""


HEAD = ("what", "measured", "limit", "")


def table(rows: Iterable[Row]) -> str:
    """The rows as one aligned table."""
    cells = _cells(rows)
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    lines = ["  ".join(c.ljust(w) for c, w in zip(line, widths, strict=True)).rstrip() for line in cells]
    return "\n".join([lines[0], "  ".join("-" * width for width in widths).rstrip(), *lines[1:]])


def markdown(rows: Iterable[Row]) -> str:
    """The rows as a Markdown table."""
    head, *body = [" | ".join(cell.replace("|", "\\|") for cell in line) for line in _cells(rows)]
    return "\n".join([f"| {head} |", "| --- | --- | --- | --- |", *(f"| {line} |" for line in body)])


def _cells(rows: Iterable[Row]) -> list[tuple[str, str, str, str]]:
    return [HEAD, *((row.name, row.measured, row.limit, row.verdict) for row in rows)]
