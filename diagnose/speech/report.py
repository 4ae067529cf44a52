"""A consultation as plain data, for ``--json``: the shape is fixed by dialogue/schema/diagnosis.json, and versioned."""

from collections.abc import Sequence
from math import log
from typing import TYPE_CHECKING, Any

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.telling import care_note, cautions, rests, what_to_tell
from diagnose.knowledge.model import NO_WAIT, Danger, Wait
from diagnose.knowledge.trial import on_trial
from diagnose.reasoning.ranking import Suspect
from diagnose.reasoning.reasons import Reason
from diagnose.speech.amounts import in_words
from diagnose.speech.saying import say
from diagnose.speech.talk import (
    look_again,
    recalled,
    reckoned,
    sentence,
    spoken,
    steps_of,
    then_and_now,
    why_check,
    why_fix,
    why_step,
    window,
)

if TYPE_CHECKING:
    from diagnose.dialogue.aftermath import RestOfOrder, SpoiledPiece
    from diagnose.foresight.readings import Reading

VERSION = 1


def to_plain(
    consultation: Consultation,
    understood: dict[str, Any],
    left_out: Sequence[str] = (),
    danger: dict[str, Any] | None = None,
    refused: Sequence[str] = (),
) -> dict[str, Any]:
    """The report on a consultation; ``understood`` says how free words were taken (see the schema), ``left_out``
    names the shop's files that could not be used, ``danger`` is what is to be told first (``told_first``), ``refused``
    names the stuffs that were told of and are never pressed."""
    beliefs = consultation.beliefs
    return {
        "format": "presslore-diagnosis",
        "version": VERSION,
        "danger": danger,
        "understood": understood,
        "causes": [_cause(consultation, suspect) for suspect in consultation.suspects],
        "unknown": round(min(1.0, beliefs.unknown), 6),
        "exact": beliefs.exact,
        "next": _next(consultation),
        "alternatives": _alternatives(consultation),
        "would_change": _turns(consultation),
        "expected_minutes": round(_minutes(consultation), 1),
        "expected_wait": round(_waits(consultation), 1),
        "expected_cost": round(_cost(consultation), 2),
        "expected_questions": round(_questions(consultation), 1),
        "care": _care(consultation),
        "knowledge": consultation.knowledge.version,
        "left_out": list(left_out),
        "press": _press(consultation),
        "reckoned": _reckoned(consultation),
        "readings": [_reading(consultation, reading) for reading in consultation.readings],
        "last_good": _last_good(consultation),
        "found_lately": [
            {"cause": each.cause, "on": each.on, "times": each.times} for each in consultation.session.found_lately
        ],
        "barred": _barred(consultation, refused),
        **_afterwards(consultation),
    }


def told_first(danger: Danger | None) -> dict[str, Any] | None:
    """A danger as it stands in the report."""
    if danger is None:
        return None
    told = {"id": danger.id, "title": danger.title, "steps": list(danger.steps), "call": danger.call}
    return {**told, "never": list(danger.never), "origin": danger.origin}


def _minutes(consultation: Consultation) -> float:
    return consultation.advice.minutes if _goes_on(consultation) else 0.0


def _waits(consultation: Consultation) -> float:
    return consultation.advice.waits if _goes_on(consultation) else 0.0


def _cost(consultation: Consultation) -> float:
    return consultation.advice.cost if _goes_on(consultation) else 0.0


def _questions(consultation: Consultation) -> float:
    return consultation.advice.questions if _goes_on(consultation) else 0.0


def _goes_on(consultation: Consultation) -> bool:
    """Whether there is something to put right, and it is not over."""
    return bool(consultation.evidence.seen) and consultation.session.over is None


def _care(consultation: Consultation) -> dict[str, str] | None:
    note = care_note(consultation)
    if note is None:
        return None
    return {"id": note.id, "title": note.title, "tell": what_to_tell(consultation), "origin": note.origin}


def _afterwards(consultation: Consultation) -> dict[str, Any]:
    """What becomes of the spoiled piece and of the rest of the order; null where nothing is said of it."""
    if not consultation.evidence.seen:
        return {"piece": None, "rest": None}
    from diagnose.dialogue.aftermath import rest_of_order, spoiled_piece

    piece, rest = spoiled_piece(consultation), rest_of_order(consultation)
    return {"piece": piece and _piece(consultation, piece), "rest": rest and _rest(consultation, rest)}


def _piece(consultation: Consultation, piece: "SpoiledPiece") -> dict[str, Any]:
    from diagnose.speech.afterwards import piece_words

    ways = [
        {"way": each.way, "chance": round(each.chance, 6), "worth": round(each.worth, 2), "says": each.says}
        for each in piece.ways
    ]
    return {
        "ways": ways,
        "why": piece.why,
        "cautions": list(piece.cautions),
        "text": " ".join(piece_words(consultation, piece)),
    }


def _rest(consultation: Consultation, rest: "RestOfOrder") -> dict[str, Any]:
    from diagnose.speech.afterwards import rest_words

    costs = {"go": rest.going, "go_with_care": rest.caring, "stop": rest.stopping, "piece": rest.piece}
    return {
        "verdict": rest.verdict,
        "chance": round(rest.chance, 6),
        "look_at_every": rest.every,
        "costs": {name: round(cost, 2) for name, cost in costs.items()},
        "text": rest_words(consultation, rest),
    }


def _reading(consultation: Consultation, reading: "Reading") -> dict[str, Any]:
    ratios = sorted(reading.ratios.items(), key=lambda pair: (-abs(log(pair[1])), pair[0]))
    return {
        "id": reading.id,
        "title": reading.measure.title,
        "value": round(reading.taken.value, 4),
        "error": reading.measure.error,
        "figures": {name: round(value, 4) for name, value in sorted(reading.taken.figures.items())},
        "text": spoken(reading, consultation),
        "speaks": [{"cause": cause, "times": round(ratio, 4)} for cause, ratio in ratios],
        "settles": list(reading.settles),
        "origin": reading.measure.origin,
        "basis": list(reading.measure.basis),
    }


def _reckoned(consultation: Consultation) -> dict[str, Any] | None:
    result = consultation.reckoned
    if result is None:
        return None
    least, most = result.share_band
    return {
        "peak": round(result.peak, 1),
        "dose_ratio": round(result.over, 4),
        "share": round(result.share, 4),
        "share_band": [round(least, 4), round(most, 4)],
        "text": reckoned(consultation),
    }


def _last_good(consultation: Consultation) -> dict[str, Any] | None:
    good = consultation.session.last_good
    if good is None:
        return None
    held = [
        {"kind": each.kind, "way": each.way, "was": each.was, "now": each.now, "text": then_and_now(each, consultation)}
        for each in consultation.then_and_now
    ]
    return {
        "on": good.on,
        "figures": {name: round(value, 4) for name, value in good.figures.items()},
        "used": dict(good.used),
        "text": recalled(consultation),
        "held_against": held,
    }


def _barred(consultation: Consultation, refused: Sequence[str]) -> list[dict[str, str]]:
    """Why the goods should not be pressed at all, and what to do instead; [] where they may be."""
    stuffs = [consultation.knowledge.refused[stuff] for stuff in refused]
    return [
        *({"id": each.id, "title": each.title, "why": each.why, "instead": each.instead} for each in stuffs),
        *({"id": each.id, "title": each.holds, "why": each.why, "instead": each.do} for each in consultation.barred),
    ]


def _press(consultation: Consultation) -> dict[str, Any] | None:
    press = consultation.press
    if press is None:
        return None
    known = [
        {"cause": each.cause, "turns_up": each.turns_up.value, "since": each.since, "note": each.note}
        for each in press.known
    ]
    return {"id": press.id, "title": press.title, "known": known}


def _cause(consultation: Consultation, suspect: Suspect) -> dict[str, Any]:
    cause = consultation.knowledge.causes[suspect.cause]
    own = consultation.reasons[suspect.index]
    result: dict[str, Any] = {
        "id": cause.id,
        "title": cause.title,
        "probability": round(suspect.behind, 6),
        "present": round(suspect.present, 6),
        "words": in_words(suspect.behind, consultation.knowledge.scale),
        "for": [_reason(consultation, r, cause.id) for r in own if r.weight > 0],
        "against": [_reason(consultation, r, cause.id) for r in own if r.weight < 0],
        "origin": cause.origin,
        "trial": rests(consultation, cause.id),
    }
    if not consultation.beliefs.exact:
        result["bounds"] = [round(bound, 6) for bound in consultation.beliefs.bounds[suspect.index]]
    return result


def _reason(consultation: Consultation, reason: Reason, cause: str) -> dict[str, Any]:
    finding = reason.finding
    return {
        "kind": finding.kind,
        "id": finding.id,
        "detail": finding.detail,
        "decibans": round(reason.weight, 2),
        "text": sentence(finding, consultation, cause),
    }


def _next(consultation: Consultation) -> dict[str, Any]:
    if consultation.session.over:
        return _step("done", "", say("done"), "", 0.0, ())
    if not consultation.evidence.seen:
        return _step("say", "", say("say-what-is-wrong"), say("names-no-defect"), 0.0, ())
    advice = consultation.advice
    if advice.kind == "call":
        title, minutes = say("call-for-help"), consultation.shop.rates.help_minutes
        return _step("call", "", title, why_step(consultation), minutes, ())
    return _option(consultation, advice.kind, advice.id)


def _option(consultation: Consultation, kind: str, step_id: str) -> dict[str, Any]:
    knowledge = consultation.knowledge
    if kind == "check":
        check = knowledge.checks[step_id]
        why = " ".join(filter(None, (look_again(consultation, check), why_check(consultation, step_id))))
        step = _step(kind, check.id, check.title, why, check.minutes, cautions(consultation, check), check.waits)
        outcomes = [{"id": o.id, "looks": o.looks} for o in check.outcomes]
        return {
            **step,
            "origin": check.origin,
            "trial": on_trial(check),
            "asks": check.asks,
            "window": window(check.id, consultation),
            "how": list(check.how),
            "outcomes": outcomes,
        }
    fix = knowledge.fixes[step_id]
    why, warned = why_fix(consultation, step_id), cautions(consultation, fix)
    step = _step(kind, fix.id, fix.title, why, fix.minutes, warned, fix.waits)
    return {**step, "origin": fix.origin, "trial": on_trial(fix), "steps": list(steps_of(fix, consultation))}


def _step(
    kind: str, step_id: str, title: str, why: str, minutes: float, warned: tuple[str, ...], waits: Wait = NO_WAIT
) -> dict[str, Any]:
    return {
        "kind": kind,
        "id": step_id,
        "title": title,
        "why": why,
        "minutes": minutes,
        "waits": {"minutes": waits.time, "for": waits.what} if waits.time else None,
        "cautions": list(warned),
    }


def _alternatives(consultation: Consultation) -> list[dict[str, Any]]:
    """The next best steps, each with how much dearer a good print is expected to come when starting with it."""
    if not _goes_on(consultation):
        return []
    best, *others = consultation.advice.options
    return [
        {
            "kind": option.kind,
            "id": option.step.id if option.step else "",
            "dearer_by": round(option.cost - best.cost, 2),
        }
        for option in others[:3]
    ]


def _turns(consultation: Consultation) -> list[dict[str, Any]]:
    if not _goes_on(consultation):
        return []
    return [
        {
            "check": turn.check,
            "outcome": turn.outcome,
            "chance": round(turn.chance, 6),
            "cause": consultation.net.causes[turn.leads],
            "probability": round(turn.probability, 6),
        }
        for turn in consultation.turns
    ]
