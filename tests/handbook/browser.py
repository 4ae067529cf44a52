"""The page's engine outside a browser, holding the same sessions as the Python one."""

import json
from dataclasses import asdict
from functools import cache
from math import isfinite
from typing import Any

from py_mini_racer import MiniRacer

from diagnose.dialogue.aftermath import rest_of_order, spoiled_piece
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.saving import to_json
from diagnose.dialogue.session import Session
from diagnose.dialogue.telling import cautions
from diagnose.foresight.readings import Reading, asked_by
from diagnose.handbook.page.compiled import engine_script, script
from diagnose.handbook.page.doing import doing_script
from diagnose.handbook.page.vocabulary import vocabulary_script
from diagnose.knowledge.cautions import in_brief
from diagnose.knowledge.conditions import FactValue, Usual
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Check, Fix, Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.beliefs import Beliefs
from diagnose.reasoning.planner import Option
from diagnose.reasoning.reasons import Reason
from diagnose.reasoning.trouble import PlannedQuestion
from diagnose.speech.afterwards import afterwards
from diagnose.speech.talk import (
    caveat,
    look_afresh,
    look_again,
    questions_after,
    recalled,
    spoken,
    steps_of,
    summary,
    told,
    what_would_change,
    why_check,
    why_fix,
    why_step,
    window,
)
from tests.cover.noted import noting

LOOK = """
var known = presslore.unpack(presslore.knowledge);

function asNumber(value) {
  return isFinite(value) ? value : String(value);
}

function look(text) {
  const now = new presslore.Consultation(known, presslore.session.resume(text, known));
  const speech = presslore.speech;
  return JSON.stringify({
    facts: Array.from(now.job),
    beliefs: { ...now.beliefs, logEvidence: asNumber(now.beliefs.logEvidence) },
    suspects: now.suspects.map((one) => [one.cause, one.index, one.present, one.behind]),
    advice: [
      now.advice.kind, now.advice.id, now.advice.cost, now.advice.minutes, now.advice.waits, now.advice.questions
    ],
    more: speech.questionsAfter(now),
    afresh: speech.lookAfresh(now),
    options: now.advice.options.map((one) => [
      one.step ? one.step.id : '', one.step ? one.step.cost : 0, one.cost, one.minutes, one.waits
    ]),
    reasons: Array.from(now.reasons).map(([cause, own]) => [
      cause, own.map((one) => [one.finding.kind, one.finding.id, one.finding.detail, one.weight])
    ]),
    turns: now.turns.map((one) => [one.check, one.outcome, one.chance, one.leads, one.probability]),
    told: speech.told(now, 12).map((one) => [one.title, one.chance, one.reasons]),
    change: speech.whatWouldChange(now),
    caveat: speech.caveat(now),
    readings: now.readings.map((one) => [
      one.measure.id, one.value, one.period, Array.from(one.ratios), presslore.wording.told(one, known.unit)
    ]),
    figure: now.advice.kind === 'check' ? presslore.measures.askedBy(now.advice.id, now.item, known) : '',
    doubted: Array.from(now.doubted, ([id]) => speech.lookAgain(now, presslore.known(known.checks, id))),
    why: speech.whyStep(now),
    steps: Array.from(known.fixes.values()).map((fix, n) => speech.stepsOf(now, fix, presslore.doing.fixes[n])),
    windows: Array.from(known.checks.keys()).map((check) => speech.window(now, check)),
    each: now.advice.options.filter((one) => one.step).map((one) =>
      one.step.likelihoods ? speech.whyCheck(now, one.step.id) : speech.whyFix(now, one.step.id)
    ),
    cautions: [...known.checks.values(), ...known.fixes.values()].map((step) => {
      const ids = presslore.telling.cautions(now, step);
      return [step.id, ids, presslore.telling.inBrief(step, ids)];
    }),
    summary: speech.summary(now),
    recalled: speech.recalled(now),
    barred: now.barred.map((one) => [one.id, one.why, one.instead]),
    piece: presslore.aftermath.spoiledPiece(now),
    rest: presslore.aftermath.restOfOrder(now),
    afterwards: speech.afterwards(now),
    over: now.session.over() !== null,
    saved: presslore.session.toJson(now.session, known.version)
  });
}

function believed(text, widest) {
  const now = new presslore.Consultation(known, presslore.session.fromJson(text));
  const beliefs = presslore.believe(now.net, now.evidence, widest);
  return JSON.stringify({ ...beliefs, logEvidence: asNumber(beliefs.logEvidence) });
}

function call(path, args) {
  const made = path.split('.').reduce((at, name) => at[name], presslore);
  return JSON.stringify(made.apply(null, JSON.parse(args)));
}

function attempt(text) {
  try {
    return presslore.session.toJson(presslore.session.resume(text, known), known.version);
  } catch (error) {
    return error.message;
  }
}
"""


@cache
def knowledge() -> Knowledge:
    """What ships."""
    return load(shipped_folder())


def engine(known: Knowledge, shop: Shop) -> MiniRacer:
    """The engine with this knowledge, in a world of its own."""
    world = noting(MiniRacer())
    world.eval(engine_script())
    world.eval(script(known, shop) + doing_script(known))
    world.eval(LOOK)
    return world


def another_shop(known: Knowledge, shop: Shop) -> MiniRacer:
    """One world that holds this knowledge now, in place of the one before."""
    world = _changing()
    world.eval(script(known, shop) + doing_script(known))
    world.eval("known = presslore.unpack(presslore.knowledge)")
    return world


@cache
def _changing() -> MiniRacer:
    return engine(knowledge(), Shop())


@cache
def shipped_engine() -> MiniRacer:
    """The engine with what ships, free words included."""
    world = engine(knowledge(), Shop())
    world.eval(vocabulary_script(knowledge()))
    return world


def call(path: str, *args: Any) -> Any:
    """The result of one of the engine's functions, by its path under ``presslore``."""
    return json.loads(shipped_engine().call("call", path, json.dumps(args)))


def by_page(session: Session, world: MiniRacer | None = None, version: str = "") -> dict[str, Any]:
    """All that the page knows of a session."""
    text = to_json(session, version or knowledge().version)
    found: dict[str, Any] = json.loads((world or shipped_engine()).call("look", text))
    return found


def by_command(now: Consultation) -> dict[str, Any]:
    """The same of a session on this side."""
    advice = now.advice
    return {
        "facts": [[fact, _known(value)] for fact, value in now.job.items()],
        "beliefs": beliefs_here(now.beliefs),
        "suspects": [[one.cause, one.index, one.present, one.behind] for one in now.suspects],
        "advice": [advice.kind, advice.id, advice.cost, advice.minutes, advice.waits, advice.questions],
        "more": questions_after(now),
        "afresh": look_afresh(now),
        "options": [_option(option) for option in advice.options],
        "reasons": [[cause, [_reason(one) for one in own]] for cause, own in now.reasons.items()],
        "turns": [[one.check, one.outcome, one.chance, one.leads, one.probability] for one in now.turns],
        "told": [[one.title, one.chance, list(one.reasons)] for one in told(now, 12)],
        "change": list(what_would_change(now)),
        "caveat": caveat(now),
        "readings": [_reading(now, reading) for reading in now.readings],
        "figure": _figure(now),
        "doubted": [look_again(now, now.knowledge.checks[check]) for check in now.doubted],
        "why": why_step(now),
        "steps": [list(steps_of(fix, now)) for fix in now.knowledge.fixes.values()],
        "windows": [window(check, now) for check in now.knowledge.checks],
        "each": [_why(now, option) for option in advice.options if option.step],
        "cautions": [
            *(_cautions(now, check) for check in now.knowledge.checks.values()),
            *(_cautions(now, fix) for fix in now.knowledge.fixes.values()),
        ],
        "summary": summary(now),
        "recalled": recalled(now),
        "barred": [[each.id, each.why, each.do] for each in now.barred],
        "piece": _piece(now),
        "rest": _rest(now),
        "afterwards": afterwards(now),
        "over": now.session.over is not None,
    }


def _piece(now: Consultation) -> dict[str, Any] | None:
    piece = spoiled_piece(now)
    return {"ways": [asdict(way) for way in piece.ways], "why": piece.why} if piece else None


def _rest(now: Consultation) -> dict[str, Any] | None:
    rest = rest_of_order(now)
    return asdict(rest) if rest else None


def _known(value: FactValue | Usual) -> Any:
    return {"shares": [list(share) for share in value.shares]} if isinstance(value, Usual) else value


def beliefs_here(beliefs: Beliefs) -> dict[str, Any]:
    """Beliefs of this side, as the page tells them."""
    return {
        "alive": list(beliefs.alive),
        "present": list(beliefs.present),
        "behind": list(beliefs.behind),
        "unknown": beliefs.unknown,
        "logEvidence": beliefs.log_evidence if isfinite(beliefs.log_evidence) else "-Infinity",
        "exact": beliefs.exact,
        "bounds": [list(bounds) for bounds in beliefs.bounds],
    }


def _cautions(now: Consultation, step: Check | Fix) -> list[Any]:
    ids = cautions(now, step)
    brief = in_brief(now.knowledge.cautions, step, ids)
    return [step.id, list(ids), [one for one in ids if one in brief]]


def _option(option: Option) -> list[Any]:
    step, price = (option.step.id, option.step.cost) if option.step else ("", 0)
    return [step, price, option.cost, option.minutes, option.waits]


def _reason(reason: Reason) -> list[Any]:
    return [reason.finding.kind, reason.finding.id, reason.finding.detail, reason.weight]


def _reading(now: Consultation, reading: Reading) -> list[Any]:
    ratios = [[now.net.index[cause], ratio] for cause, ratio in reading.ratios.items()]
    return [reading.id, reading.taken.value, reading.taken.period, ratios, spoken(reading, now)]


def _figure(now: Consultation) -> str:
    asked = asked_by(now.advice.id, now.item, now.knowledge) if now.advice.kind == "check" else None
    return asked.id if asked else ""


def _why(now: Consultation, option: Option) -> str:
    assert option.step is not None
    return (why_check if isinstance(option.step, PlannedQuestion) else why_fix)(now, option.step.id)


def differences(one: Any, other: Any, path: str = "") -> list[str]:
    """Where two values differ: numbers by more than a billionth, all else at all."""
    if one is None or other is None or isinstance(one, bool | str) or isinstance(other, bool | str):
        return [] if one == other else [f"{path}: {one!r} and {other!r}"]
    if isinstance(one, dict):
        return [d for key in one for d in differences(one[key], other[key], f"{path}.{key}")]
    if isinstance(one, list):
        if len(one) != len(other):
            return [f"{path}: {one!r} and {other!r}"]
        return [d for i, (a, b) in enumerate(zip(one, other, strict=True)) for d in differences(a, b, f"{path}[{i}]")]
    near = one == other or abs(one - other) <= 1e-9 * max(1.0, abs(one))
    return [] if near else [f"{path}: {one!r} and {other!r}"]
