"""Fifteen spoiled pieces with a hidden truth, by somebody who had seen titles only, no rule and not the program."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from diagnose.knowledge.conditions import FactValue

PIECES = Path(__file__).with_name("pieces.yaml")


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """``item`` and ``says``: what the person says of the goods and of the fault, in words. ``goods``: the item that
    fits, "" where none does. ``defects``: what is wrong to the eye. ``facts``: what is so of the job. ``seen``: what
    each check shows, by id; one left out cannot be told. ``cured_by``: the causes behind it, each with the fixes
    any of which puts it right. ``note``: what else there is to know of it."""

    piece: str
    item: str
    goods: str
    says: str
    defects: tuple[str, ...]
    facts: Mapping[str, FactValue]
    seen: Mapping[str, str]
    cured_by: Mapping[str, tuple[str, ...]]
    note: str = ""


@cache
def pieces() -> tuple[Piece, ...]:
    """All of them, in their order."""
    return tuple(map(_piece, yaml.safe_load(PIECES.read_text(encoding="utf-8"))))


def _piece(entry: Mapping[str, Any]) -> Piece:
    plain = {key.replace("-", "_"): value for key, value in entry.items()}
    cured_by = {cause: tuple(fixes) for cause, fixes in plain.pop("cured_by").items()}
    return Piece(**{**plain, "defects": tuple(plain["defects"])}, cured_by=cured_by)
