"""From a case to the rows of the casebook and back. Cases that show the same have the same pattern, whatever the
order their answers came in."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from diagnose.casebook.case import DIALOGUE, FORMAT, VERSION, Case, from_plain, to_plain
from diagnose.casebook.store.faults import Damaged
from diagnose.casebook.store.seals import pattern_digest, seal
from diagnose.characters import stripped
from diagnose.dialogue.moves import (
    Answered,
    Cured,
    DidNotSee,
    HandedOver,
    Measured,
    Move,
    Named,
    Pressed,
    Saw,
    TriedFix,
)
from diagnose.dialogue.saving import to_plain as session_to_plain
from diagnose.dialogue.session import Session
from diagnose.knowledge.conditions import FactValue
from diagnose.problems import PressloreError
from diagnose.reasoning.evidence import Evidence

Row = dict[str, Any]
ANY_TIME = "2000-01-01T00:00:00Z"  # where no time is asked for
_UNTOLD: Row = {"minutes": None, "spoilt": 0, "lost": None, "knowledge": "", "source": DIALOGUE}
TEXTS = ("id", "ended", "press", "moves", "knowledge", "source")
NO_TEXT = "what stands there is no text"
CURED_IT = "cured"  # the change that the curing fix made, beside "better", "same" and ""


@dataclass(frozen=True, slots=True)
class Pattern:
    """What several cases have in common: the rows of it by table."""

    digest: str
    rows: Mapping[str, list[Row]]


def pattern_of(case: Case) -> Pattern:
    """The pattern of a case, with its rows."""
    session = alike(case)
    moves = _json(session_to_plain(session))
    digest = pattern_digest(case.press, moves)
    return Pattern(digest, _pattern_rows(replace(case, session=session), moves, digest))


def rows_of(press: str, moves: str, digest: str) -> Mapping[str, list[Row]]:
    """The rows by table that a pattern's own row leads to, and that row itself. Raises Damaged."""
    row = {"first": "", "ended": ANY_TIME, "press": press, "moves": moves}
    return _pattern_rows(replace(representative(row), press=press), moves, digest)


def _pattern_rows(case: Case, moves: str, digest: str) -> Mapping[str, list[Row]]:
    head = {"press": case.press, "item": case.session.item, "ending": case.ending, "cured_by": case.cured_by}
    return {
        "pattern": [{"digest": digest, **head, "moves": moves}],
        **_evidence_rows(case, case.session.evidence, digest),
    }


def alike(case: Case) -> Session:
    """The evidence of a case as moves in a fixed order: all cases that show the same give the same moves. What is no
    evidence (a check that could not be told, a fix that could not be done) is left out."""
    session = case.session
    evidence = session.evidence
    moves: list[Move] = [Pressed(session.item, _facts(session.facts), session.press)]
    if evidence.seen:
        moves.append(Saw(evidence.seen))
    if evidence.not_seen:
        moves.append(DidNotSee(evidence.not_seen))
    for period in range(evidence.period + 1):
        moves += [Measured(dict(sorted(figures.items()))) for figures in [_measured(session, period)] if figures]
        moves += [Named(cause) for cause, at in evidence.named if at == period]
        answers = sorted((check, outcome) for check, (outcome, at) in evidence.answers.items() if at == period)
        moves += [Answered(check, outcome) for check, outcome in answers]
        if period < evidence.period:
            tried = evidence.tried[period]
            moves.append(TriedFix(tried.fix, tried.change, tried.gone))
    if isinstance(session.over, Cured | HandedOver):
        moves.append(session.over)
    return Session(tuple(moves))


def _measured(session: Session, period: int) -> dict[str, float]:
    """The figures told between two fixes; of one told twice the later counts. 385 is the same as 385.0."""
    told = [figures for at, figures in session.figures if at == period]
    return {name: float(value) for figures in told for name, value in figures.items()}


def _facts(facts: Mapping[str, FactValue]) -> dict[str, FactValue]:
    """Facts in order, and 65 the same as 65.0."""
    return {name: value if isinstance(value, str | bool) else float(value) for name, value in sorted(facts.items())}


def _evidence_rows(case: Case, evidence: Evidence, digest: str) -> dict[str, list[Row]]:
    key = {"pattern": digest}
    tried = [(one.fix, one.change) for one in evidence.tried]
    if case.cured_by:
        tried.append((case.cured_by, CURED_IT))
    return {
        "seen": [
            {**key, "defect": defect, "there": there}
            for there, defects in ((1, evidence.seen), (0, evidence.not_seen))
            for defect in defects
        ],
        "answer": [
            {**key, "asked": check, "outcome": outcome, "period": period}
            for check, (outcome, period) in sorted(evidence.answers.items())
        ],
        "figure": [
            {**key, "name": name, "period": period, "value": value}
            for period in range(evidence.period + 1)
            for name, value in sorted(_measured(case.session, period).items())
        ],
        "tried": [
            {**key, "number": number, "fix": fix, "change": change} for number, (fix, change) in enumerate(tried, 1)
        ],
    }


def case_row(case: Case, digest: str) -> Row:
    """The row of the case itself, sealed."""
    plain = to_plain(case)
    kept = {name: plain[name] for name in ("id", "ended", "minutes", "spoilt", "lost", "knowledge", "source")}
    row = {**kept, "pattern": digest, "moves": _json(plain["moves"])}
    return {**row, "digest": seal(row, case.took)}


def took_rows(case: Case) -> list[Row]:
    """How long each step of it took."""
    return [{"case_id": case.id, "step": step, "minutes": float(minutes)} for step, minutes in case.took.items()]


def case_from(row: Mapping[Any, Any], took: Mapping[Any, Any]) -> Case:
    """The case of a row that holds its press as well. Raises Damaged with what is wrong where it holds none. The
    values may be of any type: a damaged file does not keep to its columns'."""
    _prove_texts(row, took)
    names = ("id", "ended", "minutes", "spoilt", "lost", "knowledge", "source")
    plain = {name: row[name] for name in names}
    moves, press = _moves(row["moves"]), _press(row["press"])
    whole = {"format": FORMAT, "version": VERSION, **plain, "press": press, "took": dict(took), "moves": moves}
    try:
        return from_plain(whole)
    except PressloreError as error:
        raise Damaged(str(error)) from error


def representative(row: Mapping[Any, Any]) -> Case:
    """A case that stands for all of its pattern: its id is that of the first by id; what it cost is left out. Raises
    Damaged where the row holds none."""
    shown = {name: row[name] for name in ("ended", "press", "moves")}
    case = case_from({"id": "0" * 32, **_UNTOLD, **shown}, {})
    if not encodable(row["first"]):
        raise Damaged(f"the case is damaged: id: {NO_TEXT}")
    return replace(case, id=row["first"])


def _prove_texts(row: Mapping[Any, Any], took: Mapping[Any, Any]) -> None:
    for name in TEXTS:
        if not isinstance(row[name], str):
            raise Damaged(f"the case is damaged: {name}: {NO_TEXT}")
    if not all(isinstance(step, str) for step in took):
        raise Damaged(f"the case is damaged: took: {NO_TEXT}")


def unchanged(row: Mapping[Any, Any], took: Mapping[str, float]) -> bool:
    """Whether a case's row, with its press and what it ``showed``, is as it was written."""
    showed: bool = pattern_digest(row["press"], row["showed"]) == row["pattern"]
    return showed and bool(seal(row, took) == row["digest"])


def as_named(key: object) -> str:
    """What stands where an id should, as it can be told."""
    return key if isinstance(key, str) else repr(key)


def _moves(text: str) -> Any:
    try:
        return json.loads(text)
    except (ValueError, RecursionError) as error:
        raise Damaged(f"the case is damaged: moves: no JSON ({error})") from error


def _press(kept: str) -> str:
    """The press without the control characters that one was once allowed to have."""
    return stripped(kept) if encodable(kept) else kept


def encodable(text: object) -> bool:
    """Whether it is text, and the bytes that stood there were UTF-8."""
    return isinstance(text, str) and not any("\ud800" <= letter <= "\udfff" for letter in text)


def _json(value: Any) -> str:
    return json.dumps(value, separators=(",", ":"))
