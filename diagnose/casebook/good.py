"""The last pressings that came out well: what each item was set to, for each press, in one small file beside the
casebook. It is no part of the casebook, which holds spoiled presses alone, and is read before the first question."""

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any

from diagnose.dialogue.moves import LastGood
from diagnose.dialogue.saving import clean
from diagnose.files.reading import decoded, read_if_there
from diagnose.files.writing import changed_meanwhile, replace_all
from diagnose.foresight.figures import sensible
from diagnose.foresight.last_good import APART, GOODS
from diagnose.problems import PressloreError

FORMAT, VERSION = "presslore-good", 1
FILE = "good-pressings.json"
MOST_BYTES = 10_000_000
TRIES = 8  # to be faster than others who note one at the same moment


@dataclass(frozen=True, slots=True, kw_only=True)
class GoodPressing:
    """What came out well: the item, the press ("" where there is but one or nobody said), and the rest as a dialogue
    recalls it."""

    item: str
    press: str = ""
    good: LastGood = field(default_factory=lambda: LastGood(""))


def noted(path: Path) -> tuple[GoodPressing, ...]:
    """What a file holds, in the order it was noted; () where there is none. Raises PressloreError for a damaged one."""
    content = read_if_there(path, most=MOST_BYTES)
    return () if content is None else _read(content, path)


def last_good(found: Iterable[GoodPressing], item: str, press: str) -> LastGood | None:
    """The last good pressing of an item on a press."""
    fitting = [each.good for each in found if (each.item, each.press) == (item, press)]
    return fitting[-1] if fitting else None


def note(path: Path, pressing: GoodPressing) -> None:
    """Keep a good pressing, in place of an earlier one of the same item and press. Raises PressloreError, where a later
    one is held as well."""
    for left in reversed(range(TRIES)):
        before = read_if_there(path, most=MOST_BYTES)
        others = () if before is None else _read(before, path)
        if later := next((each for each in others if _later(each, pressing)), None):
            raise PressloreError(f"a later good one is noted already, of {later.good.on}: say the day with --on")
        kept = [each for each in others if (each.item, each.press) != (pressing.item, pressing.press)]
        try:
            replace_all({path: (before, _written([*kept, pressing]))})
            return
        except PressloreError as error:
            if not left or not changed_meanwhile(error):
                raise


def _later(one: GoodPressing, other: GoodPressing) -> bool:
    return (one.item, one.press) == (other.item, other.press) and one.good.on > other.good.on


def _written(found: Iterable[GoodPressing]) -> bytes:
    plain = [{"item": each.item, "press": each.press, **asdict(each.good)} for each in found]
    return (json.dumps({"format": FORMAT, "version": VERSION, "good": plain}, indent=1) + "\n").encode()


def _read(content: bytes, path: Path) -> tuple[GoodPressing, ...]:
    try:
        whole = json.loads(decoded(content, str(path)))
        if whole["format"] != FORMAT:
            raise PressloreError(f"{path}: not a list of good pressings: move it out of the way")
        if whole["version"] > VERSION:
            raise PressloreError(f"{path}: written by a newer presslore: update this one")
        return tuple([_pressing(each) for each in whole["good"]])
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise PressloreError(f"{path}: this list of good pressings is damaged: mend it, or delete it") from error


def _pressing(plain: Any) -> GoodPressing:
    """One pressing in plain values. Raises ValueError, KeyError, TypeError or AttributeError for anything else."""
    figures = {name: float(value) for name, value in plain["figures"].items()}
    used = {kind: clean(words) for kind, words in plain["used"].items()}
    if not (figures.keys() <= APART.keys() and used.keys() <= GOODS.keys()) or not all(
        map(sensible, figures, figures.values())
    ):
        raise ValueError("no such figure or goods")
    good = LastGood(clean(plain["on"]), figures, used)
    return GoodPressing(item=clean(plain["item"]), press=clean(plain["press"]), good=good)
