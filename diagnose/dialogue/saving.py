"""A session as JSON, for leaving and resuming: written whole or not at all, read back exactly or refused."""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass, field, fields
from pathlib import Path
from typing import Any

from diagnose.characters import named, stripped
from diagnose.dialogue import moves as said
from diagnose.dialogue.moves import Move
from diagnose.dialogue.session import Session
from diagnose.files.kinds import FileKind
from diagnose.files.reading import decoded, place_of, read
from diagnose.foresight.figures import NAMES, sensible
from diagnose.foresight.last_good import GOODS
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import Knowledge
from diagnose.problems import PressloreError
from diagnose.reasoning.evidence import BETTER, SAME

FORMAT = "presslore-session"
# A session is written as the oldest that holds it: 2: figures; 3: named causes; 4: answers given again; 5: what the
# shop knew of the last good piece and of the last cases, and what was used.
VERSION = 5
MOST_TIMES = 1e3  # no cause found lately counts more times as likely
LARGEST = 1e9  # no fact of a job is a larger number
LONGEST_TEXT = 1_000  # letters
LATEST = 4e9  # seconds since 1970: no dialogue ends later
MOST_BYTES = 1_000_000  # a dialogue takes some thousands
SAVED = FileKind(name="a saved dialogue", begins=tuple(f'{{{gap}"format": "{FORMAT}"'.encode() for gap in ("\n ", "")))
_CASE_ID = re.compile(r"[0-9a-f]{32}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """What is kept with a session so that it becomes a case once, and whole: the id of that case, the minutes spent
    (``took``: by check or fix), when it ended (seconds since 1970, None while it goes on), and whether it was kept."""

    case: str
    minutes: float = 0.0
    took: Mapping[str, float] = field(default_factory=dict)
    ended: float | None = None
    kept: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Saved:
    """A saved session: with the version of the knowledge it was held with, its progress (None where it was saved by
    another hand or an older presslore) and the bytes of its file."""

    session: Session
    knowledge: str
    progress: Progress | None
    content: bytes


_KINDS: Mapping[str, type[Any]] = {
    "pressed": said.Pressed,
    "saw": said.Saw,
    "did-not-see": said.DidNotSee,
    "answered": said.Answered,
    "measured": said.Measured,
    "named": said.Named,
    "last-good": said.LastGood,
    "found-lately": said.FoundLately,
    "used": said.Used,
    "cannot-tell": said.CannotTell,
    "tried": said.TriedFix,
    "cannot-do": said.CannotDo,
    "cured": said.Cured,
    "handed-over": said.HandedOver,
}
_NAMES = {kind: name for name, kind in _KINDS.items()}


def to_json(session: Session, knowledge_version: str, progress: Progress | None = None) -> str:
    """The session as JSON text."""
    whole = {
        "format": FORMAT,
        "version": version_of(session),
        "knowledge": knowledge_version,
        "moves": to_plain(session),
        **({"progress": asdict(progress)} if progress else {}),
    }
    return json.dumps(whole, indent=1) + "\n"


def version_of(session: Session) -> int:
    """The oldest version that can hold the session."""
    if any(isinstance(move, said.LastGood | said.FoundLately | said.Used) for move in session.moves):
        return VERSION
    if any(isinstance(move, said.Answered) and move.again for move in session.moves):
        return 4
    if any(isinstance(move, said.Named) for move in session.moves):
        return 3
    return 2 if session.figures else 1


def saved(content: bytes, text: str) -> Saved:
    """What a file with this text holds. Raises PressloreError."""
    try:
        whole = json.loads(text, parse_constant=_no_number)
        if whole["format"] != FORMAT:
            raise PressloreError("not a saved session: choose a file that presslore saved")
        if _whole_number(whole["version"]) > VERSION:
            raise PressloreError("saved by a newer presslore: update this one, then resume")
        session, progress = from_plain(whole["moves"]), whole.get("progress")
        for each in texts(whole["moves"]):
            clean(each)
        return Saved(
            session=session,
            knowledge=str(whole["knowledge"]),
            progress=None if progress is None else _progress(progress),
            content=content,
        )
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise PressloreError("the saved session is damaged: start afresh, or mend the file") from error


def clean(value: Any) -> str:
    """The text, where every screen, file and database takes it. Raises ValueError or TypeError with what is wrong."""
    if not isinstance(value, str):
        raise TypeError(f"unexpected {value!r}, expected a text")
    if len(value) > LONGEST_TEXT:
        raise ValueError(f"{len(value)} letters, expected {LONGEST_TEXT} at most")
    if stripped(value) != value:
        letter = next(letter for letter in value if stripped(letter) != letter)
        raise ValueError(f"it holds letters that cannot be written ({named(letter)})")
    return value


def texts(value: Any) -> Iterator[str]:
    """All texts in a plain JSON value, keys included."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for part in [*value, *(value.values() if isinstance(value, dict) else [])]:
            yield from texts(part)


def _progress(plain: Any) -> Progress:
    """The progress in plain values. Raises ValueError, KeyError, TypeError or AttributeError for anything else."""
    if not _CASE_ID.fullmatch(plain["case"]) or not isinstance(plain["kept"], bool):
        raise ValueError("no progress of a dialogue")
    ended = plain["ended"]
    return Progress(
        case=plain["case"],
        minutes=_number(plain["minutes"], LARGEST),
        took={str(step): _number(minutes, LARGEST) for step, minutes in plain["took"].items()},
        ended=None if ended is None else _number(ended, LATEST),
        kept=plain["kept"],
    )


def _number(value: Any, most: float) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value <= most:
        raise ValueError(f"unexpected {value!r}")
    return float(value)


def to_plain(session: Session) -> list[dict[str, Any]]:
    """The moves of a session as plain JSON values."""
    return [{"move": _NAMES[type(move)], **_fields(move)} for move in session.moves]


def _fields(move: Move) -> dict[str, Any]:
    values = {name: list(value) if isinstance(value, tuple) else value for name, value in asdict(move).items()}
    for name in ("press", "check"):  # a session without one is written as it always was
        if values.get(name) == "" and not isinstance(move, said.Answered | said.CannotTell):
            del values[name]
    if values.get("again") is False:
        del values["again"]
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
    if wanted in (str, bool) and isinstance(value, wanted):
        return value
    if wanted is float and not isinstance(value, bool) and isinstance(value, int | float) and 0 < value <= MOST_TIMES:
        return value
    if (
        wanted == Mapping[str, str]
        and isinstance(value, dict)
        and all(isinstance(part, str) for part in value.values())
    ):
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


def make_folder(folder: Path) -> None:
    """Make a folder for sessions where there is none. Raises PressloreError."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise PressloreError(f"{folder}: this folder cannot be made ({error.strerror})") from error


def resumed(path: Path, knowledge: Knowledge) -> Saved:
    """What was saved, checked against today's knowledge. Raises PressloreError where it does not fit."""
    found = read_saved(path)
    if unknown := sorted(unknown_ids(found.session, knowledge)):
        raise PressloreError(f"{path}: the saved session speaks of things no longer known: {', '.join(unknown)}")
    return found


def read_saved(path: Path) -> Saved:
    """What was saved in a file. Raises PressloreError where it cannot be read or holds something else."""
    try:
        content = read(path, most=MOST_BYTES)
        text = decoded(content, str(path))
    except PressloreError as error:
        raise PressloreError(f"cannot read the saved session {error}") from error
    try:
        return saved(content, text)
    except PressloreError as error:
        raise PressloreError(f"{place_of(error.__cause__, str(path))}: {error}") from error


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
            case said.LastGood(_, figures, used):
                result |= (set(figures) - NAMES) | (set(used) - set(GOODS))
            case said.Used(used):
                result |= set(used) - set(GOODS)
            case said.FoundLately(cause):
                result |= {cause} - {*knowledge.causes}
            case said.Measured(figures, check):
                result |= (set(figures) - NAMES) | ({check} - {"", *knowledge.checks})
            case said.Named(cause):
                result |= {cause} - {*knowledge.causes}
            case said.CannotTell(check):
                result |= {check} - set(knowledge.checks)
            case said.TriedFix(fix, change, gone):
                result |= {change} - {"", BETTER, SAME}
                result |= ({fix} - set(knowledge.fixes)) | (set(gone) - set(knowledge.defects))
            case said.CannotDo(fix) | said.Cured(fix):
                result |= {fix} - {"", *knowledge.fixes}
    return result
