"""Cases as lines of JSON, which come back exactly, and as a table for a spreadsheet, which is for reading."""

import csv
import io
from collections.abc import Iterable, Iterator

from diagnose.casebook.case import FORMAT, Case, line, to_plain
from diagnose.files.kinds import FileKind

COLUMNS = (
    "id", "ended", "press", "item", "seen", "not seen", "answers", "figures", "tried", "ending", "cured by", "minutes",
    "spoilt", "lost", "source", "knowledge",
)  # fmt: skip
LINES = FileKind(name="an export of cases as lines", begins=(f'{{"format":"{FORMAT}",'.encode(),))
TABLE = FileKind(name="an export of cases as a table", begins=(",".join(COLUMNS[:10]).encode(),))
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")  # a spreadsheet runs a cell that begins like this
AS_TEXT = "'"


def json_lines(cases: Iterable[Case]) -> Iterator[str]:
    """One line for each case."""
    return map(line, cases)


def table(cases: Iterable[Case]) -> Iterator[str]:
    """The cases as CSV (RFC 4180), with a head. No cell is one that a spreadsheet would run."""
    yield _csv_line(COLUMNS)
    for case in cases:
        yield _csv_line(_cells(case))


def _cells(case: Case) -> Iterator[object]:
    plain, evidence = to_plain(case), case.session.evidence
    told = {
        "item": case.session.item,
        "seen": " ".join(evidence.seen),
        "not seen": " ".join(evidence.not_seen),
        "answers": " ".join(f"{check}={outcome}" for check, (outcome, _) in sorted(evidence.answers.items())),
        "figures": " ".join(f"{name}={value:.6g}" for _, told in case.session.figures for name, value in told.items()),
        "tried": " ".join(tried.fix for tried in evidence.tried),
        "ending": case.ending,
        "cured by": case.cured_by,
    }
    return (told.get(column, plain.get(column)) for column in COLUMNS)


def _csv_line(cells: Iterable[object]) -> str:
    written = io.StringIO()
    csv.writer(written).writerow([defused(cell) for cell in cells])
    return written.getvalue()


def defused(cell: object) -> object:
    """The cell, marked as text where a spreadsheet would take it for a formula."""
    return AS_TEXT + cell if isinstance(cell, str) and cell.startswith(FORMULA) else cell
