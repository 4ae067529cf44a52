"""Which columns of a colour instrument's sheet hold what, found by their names."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

PROOF, PRINT = "proof", "print"
ROLES = {
    **dict.fromkeys(("proof", "standard", "std", "reference", "ref", "target", "master", "original", "before"), PROOF),
    **dict.fromkeys(("print", "printed", "sample", "smp", "trial", "batch", "specimen", "test", "after"), PRINT),
}
NUMBERED = {"1": PROOF, "2": PRINT}  # L1 a1 b1 L2 a2 b2
NAMES = ("name", "label", "patch", "title", "colour", "color", "id", "number", "no")  # the first that is there
ROLE_NAMES = ("role", "type", "kind", "which")
IDLE = {"lab", "cie", "cielab", "value", "2", "10", "deg", "star", "mean"}
SETTING = re.compile(r"\bD\s?(?:50|65)\b|\bM[0-3]\b|°", re.IGNORECASE)  # of the instrument
WORDS = re.compile(r"[A-Z]?[a-z]+|[A-Z]+(?![a-z])|\d+")
SHIFTS = re.compile(r"Δ|δ|^\s*(?:d|delta)\s*[LabCHE]\b|^\s*delta", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Columns:
    """Where things stand, counted from 0. ``colour`` is {role: {"l": …, "a": …, "b": …}}; the role is "" where the
    sheet has one colour on a line. ``name`` and ``role`` are None where there is no such column."""

    colour: Mapping[str, Mapping[str, int]]
    name: int | None = None
    role: int | None = None
    titles: Sequence[str] = field(default_factory=tuple)

    @property
    def paired(self) -> bool:
        """Whether each line holds a proof and its print."""
        return PROOF in self.colour and PRINT in self.colour


def columns(cells: Sequence[str]) -> Columns | None:
    """The columns that a line of titles names; None where it names no whole colour."""
    found: dict[str, dict[str, int]] = {}
    for place, cell in enumerate(cells):
        if part := _part(cell):
            role, letter = part
            found.setdefault(role, {}).setdefault(letter, place)
    whole = {role: parts for role, parts in found.items() if len(parts) == 3}
    if not whole:
        return None
    if not (PROOF in whole and PRINT in whole):  # one colour a line, whatever its columns are called
        role = "" if "" in whole else next(iter(whole))
        whole = {"": whole[role]}
    taken = {place for parts in whole.values() for place in parts.values()}
    return Columns(whole, _named(cells, NAMES, taken), _named(cells, ROLE_NAMES, taken), tuple(cells))


def role_in(text: str) -> tuple[str, str]:
    """The role that a text names, "" for none, and the text without it: ``fête red, proof``: proof, ``fête red``."""
    for word in re.findall(r"[^\W\d_]+", text):
        if role := ROLES.get(word.casefold()):
            rest = re.sub(rf"(?<![^\W_]){re.escape(word)}(?![^\W_])", " ", text, count=1)
            return role, " ".join(re.sub(r"[\s_]+", " ", rest).strip(" ,;:-–()[]/.").split())
    return "", " ".join(text.split())


def _part(cell: str) -> tuple[str, str] | None:
    """The role and the letter of a column that holds a part of a colour; None for any other."""
    if SHIFTS.search(cell):
        return None
    words = [word.lower() for word in WORDS.findall(SETTING.sub(" ", cell))]
    role, letter = "", ""
    for word in words:
        if word in ("l", "a", "b"):
            if letter:
                return None
            letter = word
        elif word in ROLES:
            role = ROLES[word]
        elif letter and word in NUMBERED and not role:
            role = NUMBERED[word]
        elif word not in IDLE:
            return None
    return (role, letter) if letter else None


def _named(cells: Sequence[str], names: Sequence[str], taken: set[int]) -> int | None:
    words = [{word.lower() for word in WORDS.findall(cell)} for cell in cells]
    free = [place for place in range(len(cells)) if place not in taken]
    return next((place for name in names for place in free if name in words[place]), None)
