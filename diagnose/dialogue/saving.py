"""A session as JSON, for leaving and resuming: written whole or not at all, read back exactly or refused."""

import json
import os
import tempfile
from collections.abc import Mapping
from dataclasses import asdict, fields
from pathlib import Path
from typing import Any

from diagnose.dialogue import moves as said
from diagnose.dialogue.moves import Move
from diagnose.dialogue.session import Session
from diagnose.foresight.figures import NAMES, sensible
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import Knowledge
from diagnose.problems import PressloreError
from diagnose.reasoning.evidence import BETTER, SAME

FORMAT = "presslore-session"
VERSION = 2  # 2: figures that were measured; a session without any is written as version 1
LARGEST = 1e9  # no fact of a job is a larger number

_KINDS: Mapping[str, type[Any]] = {
    "pressed": said.Pressed,
    "saw": said.Saw,
    "did-not-see": said.DidNotSee,
    "answered": said.Answered,
    "measured": said.Measured,
    "cannot-tell": said.CannotTell,
    "tried": said.TriedFix,
    "cannot-do": said.CannotDo,
    "cured": said.Cured,
    "handed-over": said.HandedOver,
}
_NAMES = {kind: name for name, kind in _KINDS.items()}


def to_json(session: Session, knowledge_version: str) -> str:
    """The session as JSON text."""
    whole = {
        "format": FORMAT,
        "version": version_of(session),
        "knowledge": knowledge_version,
        "moves": to_plain(session),
    }
    return json.dumps(whole, indent=1) + "\n"


def version_of(session: Session) -> int:
    """The oldest version that can hold the session."""
    return VERSION if session.figures else 1


def from_json(text: str) -> tuple[Session, str]:
    """The session in a JSON text, and the version of the knowledge it was held with; PressloreError else."""
    try:
        whole = json.loads(text, parse_constant=_no_number)
        if whole["format"] != FORMAT:
            raise PressloreError("not a saved session: choose a file that presslore saved")
        if _whole_number(whole["version"]) > VERSION:
            raise PressloreError("saved by a newer presslore: update this one, then resume")
        return from_plain(whole["moves"]), str(whole["knowledge"])
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise PressloreError("the saved session is damaged: start afresh, or mend the file") from error


def to_plain(session: Session) -> list[dict[str, Any]]:
    """The moves of a session as plain JSON values."""
    return [{"move": _NAMES[type(move)], **_fields(move)} for move in session.moves]


def _fields(move: Move) -> dict[str, Any]:
    values = {name: list(value) if isinstance(value, tuple) else value for name, value in asdict(move).items()}
    for name in ("press", "check"):  # a session without one is written as it always was
        if values.get(name) == "" and not isinstance(move, said.Answered | said.CannotTell):
            del values[name]
    return values


def from_plain(moves: Any) -> Session:
    """The session of some moves. Raises ValueError, KeyError, TypeError or AttributeError for anything else."""
    return Session(tuple(_move(entry) for entry in _listed(moves)))


def _whole_number(value: Any) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise TypeError(f"unexpected {value!r}")
    return value


def _listed(value: Any) -> list[Any]:
    if not isinstance(value, list):
        raise TypeError(f"unexpected {value!r}")
    return value


def _no_number(word: str) -> float:
    raise ValueError(f"{word} is no number")


def _move(entry: dict[str, Any]) -> Move:
    kind = _KINDS[entry["move"]]
    wanted = {field.name: field.type for field in fields(kind)}
    move: Move = kind(**{key: _value(v, wanted[key]) for key, v in entry.items() if key != "move"})
    return move


def _value(value: Any, wanted: Any) -> Any:
    """A field of a move. Raises TypeError where the value is of another kind than the field."""
    if wanted is str and isinstance(value, str):
        return value
    if wanted == tuple[str, ...] and isinstance(value, list) and all(isinstance(part, str) for part in value):
        return tuple(value)
    if wanted == Mapping[str, float] and isinstance(value, dict) and all(map(_figure, value, value.values())):
        return value
    facts = wanted == Mapping[str, FactValue] and isinstance(value, dict)
    if facts and all(isinstance(fact, str | bool) or _sensible(fact) for fact in value.values()):
        return value
    raise TypeError(f"unexpected {value!r}")


def _figure(name: str, value: Any) -> bool:
    return not isinstance(value, bool) and _sensible(value) and sensible(name, value)


def _sensible(fact: Any) -> bool:
    return isinstance(fact, int | float) and abs(fact) <= LARGEST


def save(session: Session, path: Path, knowledge_version: str) -> None:
    """Write the session: the old file stays until the new one is whole. Raises PressloreError."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
        try:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                file.write(to_json(session, knowledge_version))
                file.flush()
                os.fsync(file.fileno())
            os.replace(name, path)
        except BaseException:
            os.unlink(name)
            raise
    except OSError as error:
        raise PressloreError(f"cannot save the session to {path}: {error.strerror or error}") from error


def resume(path: Path, knowledge: Knowledge) -> Session:
    """The saved session, checked against today's knowledge. Raises PressloreError where it does not fit."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        reason = error.strerror if isinstance(error, OSError) else "it is not text"
        raise PressloreError(f"cannot read the saved session {path}: {reason}") from error
    try:
        session, _ = from_json(text)
    except PressloreError as error:
        raise PressloreError(f"{path}: {error}") from error
    if unknown := sorted(unknown_ids(session, knowledge)):
        raise PressloreError(f"{path}: the saved session speaks of things no longer known: {', '.join(unknown)}")
    return session


def unknown_ids(session: Session, knowledge: Knowledge) -> set[str]:
    """What a session names that the knowledge does not hold."""
    result: set[str] = set()
    for move in session.moves:
        match move:
            case said.Pressed(item, facts):
                result |= ({item} - {"", *knowledge.items}) | (set(facts) - set(knowledge.facts))
            case said.Saw(defects) | said.DidNotSee(defects):
                result |= set(defects) - set(knowledge.defects)
            case said.Answered(check, outcome):
                known = knowledge.checks.get(check)
                if known is None or outcome not in {o.id for o in known.outcomes}:
                    result.add(f"{check}={outcome}")
            case said.Measured(figures, check):
                result |= (set(figures) - NAMES) | ({check} - {"", *knowledge.checks})
            case said.CannotTell(check):
                result |= {check} - set(knowledge.checks)
            case said.TriedFix(fix, change, gone):
                result |= {change} - {"", BETTER, SAME}
                result |= ({fix} - set(knowledge.fixes)) | (set(gone) - set(knowledge.defects))
            case said.CannotDo(fix) | said.Cured(fix):
                result |= {fix} - {"", *knowledge.fixes}
    return result
