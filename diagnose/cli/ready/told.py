"""From what was told of a job, by flags, a file or prompts, to the job."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import click

from diagnose.cli.asking.flags import fact, known_id
from diagnose.cli.lookup.item_named import NamedGoods, goods_named
from diagnose.cli.shop.shelf import Shelf
from diagnose.files.reading import read
from diagnose.foresight.dosing import Set
from diagnose.foresight.job import AS_LISTED, HEAVY, LIGHT, Job
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.documents.document import Plain
from diagnose.knowledge.model import Item, Refused
from diagnose.knowledge.shop import PRESS_NAME, Press
from diagnose.press import quantities
from diagnose.problems import PressloreError

LARGEST = 100_000  # bytes


WORDS: Mapping[str, tuple[float, float]] = {
    "light": (1.0, 1.0),
    "light to medium": (1.0, 2.0),
    "medium": (2.0, 2.0),
    "medium to heavy": (2.0, 3.0),
    "firm": (3.0, 3.0),
    "heavy": (3.0, 3.0),
}
FACTS: Mapping[str, str] = {"colour": "item.colour", "polyester": "item.polyester", "coated": "item.coated"}
EDGES = (20.0, 40.0)  # kPa over the goods between light and medium, medium and heavy: common practice
READ: Mapping[str, Callable[[str], float]] = {
    "set": quantities.temperature,
    "dwell": quantities.dwell,
    "probe": quantities.temperature,
    "thickness": quantities.length,
    "spoilt": quantities.share,
    "polyester": quantities.share,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldJob:
    """A job as it was told: °C, s, metres, shares of 1; None and "" where nothing was said."""

    item: str = ""
    facts: tuple[str, ...] = ()
    press: str = ""
    set: float | None = None
    dwell: float | None = None
    probe: float | None = None
    thickness: float | None = None
    pressure: str = ""
    sheets: int | None = None
    so: tuple[str, ...] = ()
    not_so: tuple[str, ...] = ()
    unsure: tuple[str, ...] = ()
    rest_so: bool = False
    pieces: int = 1
    spoilt: float | None = None

    @classmethod
    def of(cls, values: Mapping[str, Any]) -> "ToldJob":
        """What was told under the names of the options. ``colour``, ``polyester`` and ``coated`` are facts."""
        rest = dict(values)
        facts = [f"{FACTS[name]}={_fact_written(rest.pop(name))}" for name in FACTS if name in rest]
        return cls(**{**rest, "facts": (*rest.get("facts", ()), *facts)})


@dataclass(frozen=True, slots=True)
class UnderstoodJob:
    """The job, the press it is for, and the words that no item goes by ("" where all was understood), with the stuff
    for whose sake they are ``refused``."""

    job: Job
    press: Press | None = None
    not_understood: str = field(default="")
    refused: Refused | None = None


def from_file(values: Mapping[str, Any]) -> dict[str, Any]:
    """What a job file says, as it would be told by flags. Raises click.UsageError for a value without sense."""
    told: dict[str, Any] = {}
    for key, value in values.items():
        if key in READ:
            told[key] = _read(key, str(value))
        elif key == "facts":
            told[key] = tuple(f"{name}={_written(each)}" for name, each in value.items())
        else:
            told[key] = tuple(value) if isinstance(value, list) else value
    return told


def understand(told: ToldJob, own: Shelf) -> UnderstoodJob:
    """The job. Raises click.UsageError for an id that is not known, or for two things told that cannot both be."""
    goods = goods_named(own.knowledge, told.item) if told.item else NamedGoods()
    item = goods.item
    press = _press(told.press, own, item)
    facts: dict[str, FactValue] = {
        **(press.facts if press else {}),
        **({PRESS_NAME: press.id} if press else {}),
        **goods.facts,
    }
    facts |= dict(fact(own.knowledge, pair) for pair in told.facts)
    named = [_ids(each, own) for each in (told.so, told.not_so, told.unsure)]
    for one in set(named[0]) & set(named[1]):
        raise click.UsageError(f"{one}: it cannot be both so and not so")
    if told.probe is not None and told.set is None:
        raise click.UsageError("--probe without --set: what does the display show while the probe reads this?")
    job = Job(
        item=item,
        facts=facts,
        set=_set(told),
        pressure=_pressure(told.pressure, item),
        so=named[0],
        not_so=named[1],
        unsure=named[2],
        rest_so=told.rest_so,
        pieces=told.pieces,
        spoilt=own.shop.spoilt if told.spoilt is None else told.spoilt,
        known=press.known if press else (),
    )
    missed = told.item if told.item and item is None and not goods.facts else ""
    return UnderstoodJob(job, press, missed, goods.refused)


def _set(told: ToldJob) -> Set:
    offset = None if told.probe is None or told.set is None else told.probe - told.set
    return Set(
        temperature=told.set, dwell=told.dwell, offset=offset, cover_sheets=told.sheets, thickness=told.thickness
    )


def _press(named: str, own: Shelf, item: Item | None) -> Press | None:
    if not named:
        return own.shop.press_for(item.job if item else {})
    if not own.shop.presses:
        raise click.UsageError(f"--press {named}: no shop.yaml names presses; they stand in it under presses")
    return own.shop.presses[known_id(named, own.shop.presses, "press")]


def _ids(typed: Iterable[str], own: Shelf) -> tuple[str, ...]:
    return tuple(known_id(one, own.knowledge.ready, "statement") for one in typed)


def _pressure(told: str, item: Item | None) -> str:
    """The pressure against what the item is pressed with: ``light``, ``heavy`` or ``as listed``."""
    if not told:
        return ""
    given = _span(told)
    listed = WORDS.get(item.settings.pressure) if item and item.settings else None
    if listed is None:
        return ""
    if given[1] < listed[0]:
        return LIGHT
    return HEAVY if given[0] > listed[1] else AS_LISTED


def _span(told: str) -> tuple[float, float]:
    words = " ".join(told.lower().split())
    if words in WORDS:
        return WORDS[words]
    try:
        kilopascals = quantities.pressure(told)
    except quantities.Unclear as unclear:
        raise click.UsageError(f"--pressure {told}: expected {', '.join(WORDS)}, or a pressure over the goods "
                               f"such as 30kPa ({unclear})") from None  # fmt: skip
    step = 1.0 + sum(kilopascals >= edge for edge in EDGES)
    return step, step


def _read(key: str, text: str) -> float:
    try:
        return READ[key](text)
    except quantities.Unclear as unclear:
        raise click.UsageError(f"{key}: {unclear}") from None


def _fact_written(value: object) -> str:
    """The same, a share of 1 as per cent."""
    return f"{100 * value:g}" if isinstance(value, float) else _written(value)


def _written(value: object) -> str:
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)


def read_job(path: Path) -> dict[str, Any]:
    """The values of a job file by key. Raises PressloreError with everything that is wrong with it."""
    from diagnose.knowledge.documents.schema_check import check_structure
    from diagnose.knowledge.documents.yaml_text import read_yaml

    document, problems = read_yaml(read(path, most=LARGEST), str(path))
    if document is not None:
        document, more = check_structure(document, "job")
        problems = [*problems, *more]
    if problems or document is None:
        raise PressloreError(problems)
    return _plain(document.value)


def _plain(value: Plain) -> dict[str, Any]:
    """The file's keys as the options are called: ``not-so`` becomes ``not_so``."""
    return {key.replace("-", "_"): each for key, each in value.items()} if isinstance(value, dict) else {}
