"""Checks a document against its JSON Schema and turns what is found into located problems.

The schemas in ``schema/`` are the one source of the structure: this module knows none of their keys.
"""

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import islice
from pathlib import Path
from typing import Any, Literal

from jsonschema import Draft202012Validator, ValidationError, validators

from diagnose.knowledge.documents.document import Document, KeyPath, Plain
from diagnose.knowledge.documents.in_full import in_full
from diagnose.knowledge.documents.schema_words import Breach, faults
from diagnose.problems import MOST_SHOWN, Problem

Kind = Literal["kb", "rule", "shop", "job"]
SCHEMA_FOLDER = Path(__file__).parent.parent / "schema"
_PARTS_OF_A_RULE_FILE = ("rules", "cases", "look-alikes")


def check_structure(document: Document, kind: Kind, most: int = MOST_SHOWN) -> tuple[Document, list[Problem]]:
    """The document written out in full with its broken parts marked, and every breach of its schema as a problem.

    What the document already brings along as broken has been reported, and is passed over.
    The smallest part that can be left out is marked as broken: one entry of a kb file, one rule or worked
    case of a rule file, else the whole file (the empty path). No more than ``most`` are looked for.
    """
    every = (fault for error in _validator(kind).iter_errors(document.value) for fault in faults(error))
    found = list(islice((fault for fault in every if fault.path not in document.broken), most))
    paths = [*document.broken, *(fault.path for fault in found if fault.breaks)]
    broken = frozenset(_part(path, kind) for path in paths)
    problems = [_problem(document, fault) for fault in found]
    return in_full(replace(document, broken=broken), kind), problems


@cache
def schema(kind: Kind) -> dict[str, Any]:
    """The JSON Schema of one kind of file, as plain values."""
    loaded: dict[str, Any] = json.loads((SCHEMA_FOLDER / f"{kind}.json").read_text(encoding="utf-8"))
    return loaded


@cache
def kept_words() -> re.Pattern[str]:
    """What no id and no file may be called, because a system or the handbook keeps it for itself: the schema of ids is
    where it stands."""
    return re.compile(schema("kb")["$defs"]["id"]["allOf"][0]["not"]["pattern"])


@cache
def _validator(kind: Kind) -> Any:
    return _Validator(_inlined(schema(kind), kind))


def _repeated(_: Any, wanted: bool, value: Any, __: Any) -> Iterator[ValidationError]:
    """``uniqueItems``, a step for each entry: the library compares each with every other where kinds are mixed."""
    if wanted and isinstance(value, list):
        seen = {json.dumps(_told_apart(entry), sort_keys=True) for entry in value}
        if len(seen) < len(value):
            yield ValidationError("entries that are repeated")


def _told_apart(entry: Plain) -> Plain:
    """A whole number as a decimal one, for 1 and 1.0 are the same."""
    return float(entry) if isinstance(entry, int) and not isinstance(entry, bool) else entry


def _matched(_: Any, pattern: str, value: Any, __: Any) -> Iterator[ValidationError]:
    """``pattern``, with a ``$`` that means the very end, as JSON Schema has it; Python's lets a line feed follow."""
    if isinstance(value, str) and not _compiled(pattern).search(value):
        yield ValidationError("another shape")


@cache
def _compiled(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern.removesuffix("$") + r"\Z" if pattern.endswith("$") else pattern)


_WORDS = {"uniqueItems": _repeated, "pattern": _matched}
_Validator: Any = validators.extend(Draft202012Validator, _WORDS)  # type: ignore[no-untyped-call]


def _inlined(part: Any, kind: Kind) -> Any:
    """A schema with each ``$ref`` replaced by what it leads to, which makes checking twice as fast.

    What stands beside a ``$ref`` comes on top; no definition leads back to itself.
    """
    if isinstance(part, list):
        return [_inlined(each, kind) for each in part]
    if not isinstance(part, dict):
        return part
    beside = {key: _inlined(value, kind) for key, value in part.items() if key not in ("$ref", "$defs")}
    if "$ref" not in part:
        return beside
    file, name = part["$ref"].split("#/$defs/")
    target: Kind = "kb" if file == "kb.json" else kind
    return {**_inlined(schema(target)["$defs"][name], target), **beside}


def _part(path: KeyPath, kind: Kind) -> KeyPath:
    if kind == "kb":
        return path[:2]
    return path[:2] if len(path) > 1 and path[0] in _PARTS_OF_A_RULE_FILE else ()


def _problem(document: Document, fault: Breach) -> Problem:
    place = document.key_place(fault.path) if fault.at_key else document.value_place(fault.path)
    return Problem(place=place, code=fault.code, wrong=fault.wrong, expected=fault.expected, hint=fault.hint)
