"""One spoiled press from first sight to cure, as the casebook keeps it. It holds nothing about people."""

import json
import os
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from typing import Any, TypeVar

from diagnose.dialogue.moves import Cured, HandedOver
from diagnose.dialogue.saving import clean, texts, version_of
from diagnose.dialogue.saving import from_plain as session_from_plain
from diagnose.dialogue.saving import to_plain as session_to_plain
from diagnose.dialogue.session import Session
from diagnose.problems import PressloreError
from diagnose.reasoning.evidence import Evidence, Tried

FORMAT, VERSION = "presslore-case", 5  # as those of a saved session, and written as the oldest that holds it
DIALOGUE, BY_HAND = "dialogue", "by hand"
CURED, HANDED_OVER, LEFT = "cured", "handed over", "left"
MOST = 1e6  # of minutes or pieces
MOST_MONEY = 1e12  # in some currencies a blank is thousands
EARLIEST = 2000  # year: whatever ended before was typed wrong
LONGEST = 1_000_000  # bytes of a case as a line of JSON; it takes some hundreds
_ID = re.compile(r"[0-9a-f]{32}")
TIME = "%Y-%m-%dT%H:%M:%SZ"
Value = TypeVar("Value")


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """``ended``: UTC, whole seconds. ``press``: its id in the shop's file, "" where unknown. ``minutes``, ``spoilt``
    (blanks) and ``lost`` (money): what the case cost, as far as known. ``took``: minutes by check or fix, as the
    dialogue measured them. ``knowledge``: the version it was held with. ``source``: ``dialogue`` or ``by hand``."""

    id: str
    ended: datetime
    session: Session
    press: str = ""
    minutes: float | None = None
    spoilt: int = 0
    lost: float | None = None
    took: Mapping[str, float] = field(default_factory=dict)
    knowledge: str = ""
    source: str = DIALOGUE

    @property
    def ending(self) -> str:
        over = self.session.over
        return CURED if isinstance(over, Cured) else HANDED_OVER if isinstance(over, HandedOver) else LEFT

    @property
    def cured_by(self) -> str:
        """The fix that did it, "" where none is named."""
        over = self.session.over
        return over.fix if isinstance(over, Cured) else ""

    @property
    def evidence(self) -> Evidence:
        """All that the case shows. A fix that cured is one that made all that was left go away: evidence for the
        causes it puts right, not proof of any."""
        evidence = self.session.evidence
        if not self.cured_by:
            return evidence
        return replace(evidence, tried=(*evidence.tried, Tried(self.cured_by, "", evidence.left)))


def new_id(at: datetime) -> str:
    """An id no other shop will make: 12 hexadecimal digits of the time in milliseconds, 20 of chance. Ids made later
    sort later."""
    return f"{int(at.timestamp() * 1000):012x}{os.urandom(10).hex()}"


def now() -> datetime:
    """This moment in UTC, to the second."""
    return datetime.now(UTC).replace(microsecond=0)


def press_name(typed: str) -> str:
    """A press as the casebook calls it: whatever white space was typed is one blank between words, none about them."""
    return " ".join(typed.split())


def written(ended: datetime) -> str:
    """A moment as a case holds it, to the second, the year always in four digits."""
    return ended.astimezone(UTC).replace(tzinfo=None).isoformat(timespec="seconds") + "Z"


def to_plain(case: Case) -> dict[str, Any]:
    """The case as plain JSON values."""
    return {
        "format": FORMAT,
        "version": version_of(case.session),
        "id": case.id,
        "ended": written(case.ended),
        "press": case.press,
        "minutes": case.minutes,
        "spoilt": case.spoilt,
        "lost": case.lost,
        "took": dict(sorted(case.took.items())),
        "knowledge": case.knowledge,
        "source": case.source,
        "moves": session_to_plain(case.session),
    }


def line(case: Case) -> str:
    """The case as one line of JSON."""
    return _line(to_plain(case))


def _line(plain: Mapping[str, Any]) -> str:
    return json.dumps(plain, separators=(",", ":")) + "\n"


def from_plain(plain: Any) -> Case:
    """The case in plain JSON values. Raises PressloreError with what is wrong with it."""
    try:
        if plain["format"] != FORMAT:
            raise PressloreError("not a case: expected one that presslore exported")
        if plain["version"] not in range(1, VERSION + 1):
            raise PressloreError("a case from a newer presslore: update this one, then import")
        return _read(plain)
    except _Wrong as wrong:
        raise PressloreError(f"the case is damaged: {wrong}") from wrong
    except (KeyError, TypeError, AttributeError) as error:
        raise PressloreError(f"the case is damaged ({type(error).__name__}: {error})") from error


def fit(case: Case) -> Case:
    """The case as it will be read again once it is kept. Raises PressloreError, naming the field, for one that could
    not be read, exported and imported again: everything that is kept goes through here first."""
    try:
        plain = to_plain(case)
        again = _read(plain)
        if len(_line(plain)) > LONGEST:
            raise _Wrong(f"moves: these take more than {LONGEST:,} bytes")
    except _Wrong as wrong:
        raise PressloreError(f"this case cannot be kept: {wrong}") from wrong
    return again


class _Wrong(Exception):
    """What is wrong with a field, which it names."""


def _read(plain: Mapping[str, Any]) -> Case:
    """The case in plain values. Raises _Wrong."""

    def field_of(name: str, read: Callable[[Any], Value]) -> Value:
        try:
            return read(plain[name])
        except KeyError as error:
            raise _Wrong(f"{name}: this is not there") from error
        except (ValueError, TypeError, AttributeError, RecursionError) as error:
            raise _Wrong(f"{name}: {_cut(str(error))}") from error

    return Case(
        id=field_of("id", _id),
        ended=field_of("ended", _moment),
        session=field_of("moves", _session),
        press=field_of("press", clean),
        minutes=field_of("minutes", lambda value: _amount(value, MOST)),
        spoilt=field_of("spoilt", _pieces),
        lost=field_of("lost", lambda value: _amount(value, MOST_MONEY)),
        took=field_of("took", _took),
        knowledge=field_of("knowledge", clean),
        source=field_of("source", clean),
    )


def _id(value: Any) -> str:
    if not isinstance(value, str) or not _ID.fullmatch(value):
        raise ValueError(f"unexpected {_short(value)}, expected 32 hexadecimal digits")
    return value


def _moment(value: Any) -> datetime:
    expected = f"a day from {EARLIEST} on, as 2026-11-25T12:00:00Z"
    try:
        ended = datetime.strptime(value, TIME).replace(tzinfo=UTC)
    except (TypeError, ValueError):
        raise ValueError(f"unexpected {_short(value)}, expected {expected}") from None
    if ended.year < EARLIEST:
        raise ValueError(f"it ended in {ended.year}, expected {expected}")
    return ended


def _session(value: Any) -> Session:
    for text in texts(value):
        clean(text)
    try:
        return session_from_plain(value)
    except KeyError as error:
        raise ValueError(f"no such move or field: {error}") from error


def _took(value: Any) -> dict[str, float]:
    return {clean(step): _amount(minutes, MOST) or 0.0 for step, minutes in value.items()}


def _amount(value: Any, most: float) -> float | None:
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value <= most:
        raise ValueError(f"unexpected {_short(value)}, expected a number from 0 to {most:,.0f}")
    return value


def _pieces(value: Any) -> int:
    number = _amount(value, MOST) or 0
    if number != int(number):
        raise ValueError(f"unexpected {_short(value)}, expected a whole number")
    return int(number)


def _short(value: Any) -> str:
    """A value as an error shows it."""
    return _cut(ascii(value))


def _cut(text: str, most: int = 120) -> str:
    return text if len(text) <= most else f"{text[: most - 3]}..."
