"""Pairs of proof and print from the sheet that a colour instrument writes, whatever its separators and letters."""

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from diagnose.press.colour.columns import PRINT, PROOF, Columns, columns, role_in
from diagnose.press.colour.lab import Lab, checked
from diagnose.press.quantities import Unclear
from diagnose.problems import Place, PressloreError, Problem

LARGEST = 4_000_000  # bytes
SEPARATORS = ";\t,| "
HEAD = 60  # lines in which the titles must come
MOST_PROBLEMS = 20
EXPECTED = "a line of titles with L, a and b (L*, a*, b*), for one colour a line or for proof and print"


@dataclass(frozen=True, slots=True)
class ColourPair:
    """A print and the proof it is held against, with the name they share and the line they stand on."""

    name: str
    proof: Lab
    print_: Lab
    line: int


@dataclass(frozen=True, slots=True)
class _Row:
    line: int
    cells: Sequence[str]


def read_pairs(content: bytes, file: str, proof: Lab | None = None) -> list[ColourPair]:
    """The pairs of a sheet, in its order. With a ``proof`` given, each line is a print of it. Else a line holds a
    proof and a print; or a column or the names say which is which; or the first line of a name is its proof.

    Raises:
        PressloreError: every problem with its line and the number of its column.
    """
    rows, found = _table(_text(content, file), file)
    problems: list[Problem] = []
    pairs = list(_paired(rows, found, file, problems) if found.paired and proof is None else ())
    if not found.paired or proof is not None:
        pairs = _matched(rows, found, file, proof, problems)
    if problems:
        raise PressloreError(problems[:MOST_PROBLEMS])
    if not pairs:
        raise _wrong(file, 0, "no print stands beside a proof", _HOW)
    return pairs


_HOW = "two lines of one name (the first is the proof), or the words proof and print in the names, or --proof"


def _text(content: bytes, file: str) -> str:
    """The letters of the file: UTF-16 or UTF-8 where it says so or can be, else the Western letters of old programs."""
    if len(content) > LARGEST:
        raise _wrong(file, 0, f"{len(content):,} bytes", f"at most {LARGEST:,}")
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return content.decode("utf-16", "replace")
    if content[1:400:2].count(0) * 4 > len(content[:400]):
        return content.decode("utf-16-le", "replace")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = content.decode("cp1252", "replace")
    if "\0" in text:
        raise _wrong(file, 0, "this is no text", "a sheet of values saved as CSV")
    return text


def _table(text: str, file: str) -> tuple[list[_Row], Columns]:
    """The lines below the titles, and what the titles say."""
    if not text.strip():
        raise _wrong(file, 0, "the file is empty", EXPECTED)
    for separator in SEPARATORS:
        rows = list(_rows(text, separator, file))
        for place, row in enumerate(rows[:HEAD]):
            if found := columns(row.cells):
                return [below for below in rows[place + 1 :] if _filled(below) > 1], found
    raise _wrong(file, 1, "no columns for a colour are named", EXPECTED)


def _rows(text: str, separator: str, file: str) -> Iterator[_Row]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, skipinitialspace=True)
    line = 1
    try:
        for cells in reader:
            yield _Row(line, [cell.strip() for cell in cells])
            line = reader.line_num + 1
    except csv.Error as error:
        raise _wrong(file, line, str(error), "a sheet of values saved as CSV") from error


def _filled(row: _Row) -> int:
    return sum(map(bool, row.cells))


def _paired(rows: list[_Row], found: Columns, file: str, problems: list[Problem]) -> Iterator[ColourPair]:
    for row in rows:
        proof, print_ = (_colour(row, found, role, file, problems) for role in (PROOF, PRINT))
        if proof and print_:
            yield ColourPair(_name(row, found) or f"line {row.line}", proof, print_, row.line)


def _matched(
    rows: list[_Row], found: Columns, file: str, proof: Lab | None, problems: list[Problem]
) -> list[ColourPair]:
    """Prints beside the proof given, or the one of their own name."""
    own = PRINT if found.paired else ""
    read = [(row, _colour(row, found, own, file, problems)) for row in rows]
    lines = [(row, colour, *_role(row, found)) for row, colour in read if colour]
    if proof is not None:
        return [ColourPair(name or f"line {row.line}", proof, colour, row.line) for row, colour, role, name in lines]
    proofs: dict[str, Lab] = {}
    for _, colour, role, name in lines:
        if role == PROOF:
            proofs.setdefault(name.casefold(), colour)
    pairs = []
    for row, colour, role, name in lines:
        if role == PROOF:
            continue
        if not role and name.casefold() not in proofs:
            proofs[name.casefold()] = colour
        elif held := proofs.get(name.casefold()):
            pairs.append(ColourPair(name, held, colour, row.line))
        else:
            problems.append(
                _problem(
                    file, row.line, (found.name or 0) + 1, f"“{name}” has no proof", "a line with its name and “proof”"
                )
            )
    return pairs


def _role(row: _Row, found: Columns) -> tuple[str, str]:
    """What a line is, proof or print or "" where it does not say, and the name without that word."""
    role, name = role_in(_name(row, found))
    if found.role is not None and (said := role_in(_cell(row, found.role))[0]):
        return said, _name(row, found)
    return role, name


def _name(row: _Row, found: Columns) -> str:
    return "" if found.name is None else _cell(row, found.name)


def _cell(row: _Row, place: int) -> str:
    return row.cells[place] if place < len(row.cells) else ""


def _colour(row: _Row, found: Columns, role: str, file: str, problems: list[Problem]) -> Lab | None:
    """The colour of a line; None where it is none, with what is wrong among the problems."""
    values, before = [], len(problems)
    if len(row.cells) > len(found.titles) and any(row.cells[len(found.titles) :]):
        hint = "decimal commas need another separator, such as a semicolon"
        wrong = f"{len(row.cells)} cells under {len(found.titles)} titles"
        problems.append(_problem(file, row.line, len(found.titles) + 1, wrong, "a cell for each title", hint))
        return None
    for place in found.colour[role].values():
        try:
            values.append(float(_cell(row, place).replace("−", "-").replace(",", ".")))
        except ValueError:
            shown = f"'{_cell(row, place)}' is not a number" if _cell(row, place) else "nothing stands here"
            problems.append(_problem(file, row.line, place + 1, shown, f"a number for {found.titles[place]}"))
    if len(problems) > before:
        return None
    parts = dict(zip(found.colour[role], values, strict=True))
    try:
        return checked(parts["l"], parts["a"], parts["b"], text=", ".join(f"{parts[key]:g}" for key in "lab"))
    except Unclear as unclear:
        problems.append(_problem(file, row.line, found.colour[role]["l"] + 1, str(unclear)))
        return None


def _problem(file: str, line: int, column: int, wrong: str, expected: str = "", hint: str = "") -> Problem:
    return Problem(place=Place(file, line, column), code="colour-sheet", wrong=wrong, expected=expected, hint=hint)


def _wrong(file: str, line: int, wrong: str, expected: str) -> PressloreError:
    return PressloreError([_problem(file, line, 1 if line else 0, wrong, expected)])
