"""One spoiled press from first sight to cure, as the casebook keeps it. It holds nothing about people."""

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from math import isfinite
from typing import Any

from diagnose.dialogue.moves import Cured, HandedOver
from diagnose.dialogue.saving import from_plain as session_from_plain
from diagnose.dialogue.saving import to_plain as session_to_plain
from diagnose.dialogue.saving import version_of
from diagnose.dialogue.session import Session
from diagnose.problems import PressloreError
from diagnose.reasoning.evidence import Evidence, Tried

FORMAT, VERSION = "presslore-case", 2  # 2: figures that were measured; a case without any is written as version 1
DIALOGUE, BY_HAND = "dialogue", "by hand"
CURED, HANDED_OVER, LEFT = "cured", "handed over", "left"
MOST = 1e6  # of minutes, pieces or money
_ID = re.compile(r"[0-9a-f]{32}")
TIME = "%Y-%m-%dT%H:%M:%SZ"


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


def to_plain(case: Case) -> dict[str, Any]:
    """The case as plain JSON values."""
    return {
        "format": FORMAT,
        "version": version_of(case.session),
        "id": case.id,
        "ended": case.ended.astimezone(UTC).strftime(TIME),
        "press": case.press,
        "minutes": case.minutes,
        "spoilt": case.spoilt,
        "lost": case.lost,
        "took": dict(sorted(case.took.items())),
        "knowledge": case.knowledge,
        "source": case.source,
        "moves": session_to_plain(case.session),
    }


def from_plain(plain: Any) -> Case:
    """The case in plain JSON values. Raises PressloreError with what is wrong with it."""
    try:
        if plain["format"] != FORMAT:
            raise PressloreError("not a case: expected one that presslore exported")
        if plain["version"] not in range(1, VERSION + 1):
            raise PressloreError("a case from a newer presslore: update this one, then import")
        return Case(
            id=_matching(_ID, plain["id"]),
            ended=datetime.strptime(plain["ended"], TIME).replace(tzinfo=UTC),
            session=session_from_plain(plain["moves"]),
            press=_text(plain["press"]),
            minutes=_amount(plain["minutes"]),
            spoilt=int(_amount(plain["spoilt"]) or 0),
            lost=_amount(plain["lost"]),
            took={_text(step): _amount(minutes) or 0.0 for step, minutes in plain["took"].items()},
            knowledge=_text(plain["knowledge"]),
            source=_text(plain["source"]),
        )
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise PressloreError(f"the case is damaged ({type(error).__name__}: {error})") from error


def _matching(pattern: re.Pattern[str], value: Any) -> str:
    if not isinstance(value, str) or not pattern.fullmatch(value):
        raise ValueError(f"unexpected {value!r}")
    return value


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError(f"unexpected {value!r}")
    return value


def _amount(value: Any) -> float | None:
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, int | float) or not isfinite(value) or not 0 <= value <= MOST:
        raise ValueError(f"unexpected {value!r}")
    return value
