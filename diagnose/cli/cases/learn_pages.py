"""What the casebook teaches, on the screen and as plain JSON values."""

from collections.abc import Iterable, Mapping, Sequence
from math import exp
from pathlib import Path
from typing import Any

from diagnose.casebook.learning.calibration import Calibration, Interval
from diagnose.casebook.learning.changes import BRINGS, CURES, SHOWS, TURNS_UP, ChanceChange
from diagnose.casebook.learning.lesson import Lesson
from diagnose.casebook.learning.prequential import Compared
from diagnose.casebook.learning.suggesting import NewCondition, NewRule, Proportion
from diagnose.casebook.learning.times import Timed
from diagnose.cli.lookup.pages import condition
from diagnose.cli.terminal.screen import Screen
from diagnose.knowledge.model import Chance, Knowledge
from diagnose.speech.amounts import in_words, percent
from diagnose.speech.saying import say
from diagnose.speech.titles import titled

WEIGHTIEST = 6  # of each group, shown without --all
LAST_DIGITS = 8  # of an id, which name a case


def lesson_page(screen: Screen, knowledge: Knowledge, lesson: Lesson, everything: bool) -> None:
    """All of it; of the changes the weightiest, or everything."""
    if not lesson.cases:
        screen.line(say("no-case-to-learn-from"))
        return
    screen.line(f"What {_number(lesson.cases, 'case')} teach{'es' if lesson.cases == 1 else ''}", "title")
    if lesson.kept > lesson.cases:
        screen.line(say("cannot-be-learnt-from", number=_number(lesson.kept - lesson.cases, "other")), "dim")
    _changes(screen, knowledge, lesson, everything)
    _compared(screen, lesson.compared)
    _rules(screen, knowledge, lesson.rules)
    _conditions(screen, knowledge, lesson.conditions)


def _number(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _changes(screen: Screen, knowledge: Knowledge, lesson: Lesson, everything: bool) -> None:
    screen.line()
    if not lesson.changes and not lesson.minutes:
        screen.line(say("no-number-would-change"))
        return
    screen.line(
        f"{_number(len(lesson.changes), 'chance')} and {_number(len(lesson.minutes), 'time')} would change", "title"
    )
    if lesson.changes:
        screen.line(say("chances-are-among-jobs-at-the-bench"), "dim")
    up = [change for change in lesson.changes if change.new.value > change.old.value]
    down = [change for change in lesson.changes if change.new.value < change.old.value]
    _listed(screen, say("more-than-was-thought"), [_change(knowledge, change) for change in up], everything)
    _listed(screen, say("less-than-was-thought"), [_change(knowledge, change) for change in down], everything)
    _listed(screen, "Times", [_timed(knowledge, step) for step in lesson.minutes], everything)


def _listed(screen: Screen, title: str, lines: Sequence[str], everything: bool) -> None:
    if not lines:
        return
    shown = lines if everything else lines[:WEIGHTIEST]
    screen.line(f"{title}:")
    for line in shown:
        screen.hang("·" if screen.unicode else "-", line)
    if len(shown) < len(lines):
        screen.line(f"... and {len(lines) - len(shown)} more: presslore learn --all", "dim")


def _change(knowledge: Knowledge, change: ChanceChange) -> str:
    """``“Damp paper” turns up: rarely, 7 % → sometimes, 21 %; in about 12 of 60 cases``."""
    old, new = (in_words(each.value, knowledge.scale) for each in (change.old, change.new))
    return f"{_about(knowledge, change)}: {old} → {new}; {_from(change)}"


def _about(knowledge: Knowledge, change: ChanceChange) -> str:
    cause = f"“{knowledge.causes[change.cause].title}”"
    under = condition(knowledge, change.condition)
    if change.kind == TURNS_UP:
        return f"{cause} turns up{under}"
    if change.kind == BRINGS:
        return f"{cause} brings on “{knowledge.defects[change.defect].title}”{under}"
    if change.kind == CURES:
        return f"“{titled(knowledge.fixes[change.fix])}” cures {cause}"
    check = knowledge.checks[change.check]
    return f"{cause} shows “{check.outcome(change.outcome).looks.rstrip('.')}” at “{titled(check)}”"


def _from(change: ChanceChange) -> str:
    cases, held = round(change.cases), round(change.held)
    if change.kind == TURNS_UP:
        return f"in about {held} of {_number(cases, 'case')}"
    done = {BRINGS: "told of", SHOWS: "shown", CURES: "cured"}[change.kind]
    return f"{done} in about {held} of {_number(cases, 'case')} with that cause"


def _timed(knowledge: Knowledge, timed: Timed) -> str:
    step = knowledge.checks.get(timed.step) or knowledge.fixes[timed.step]
    often = "once" if timed.measured == 1 else f"{timed.measured} times"
    return f"“{titled(step)}” takes {timed.old:g} → {timed.new:g} min; timed {often}, mean {timed.mean:.1f} min"


def _compared(screen: Screen, compared: Compared) -> None:
    screen.line()
    screen.line(say("would-these-numbers-have-predicted-better"), "title")
    if not compared.cases:
        screen.line(say("nothing-followed-the-first-sight"))
        return
    screen.line(
        say("newest-cases-predicted", number=_number(compared.cases, "case")),
        "dim",
    )
    screen.line(*_verdict(compared.log_score))
    if compared.cures:
        saved = compared.brier
        before, after = compared.before, compared.after
        screen.line(
            f"Whether a fix would cure (fixes tried: {compared.cures}): the squared error changes by "
            f"{-saved.mean:+.3f} ({-saved.high:+.3f} to {-saved.low:+.3f}; below 0 is better)."
        )
        screen.line(
            say(
                "chances-of-a-cure-were-off",
                error=percent(before.error),
                after_error=percent(after.error),
                usual=percent(after.usual),
                most=percent(after.most),
            )
        )


def _verdict(gained: Interval) -> tuple[str, str]:
    """A sentence and its style: what followed the first sight, how much likelier it was held."""
    times = (
        f"{exp(gained.mean):.2f} times as likely as before, a case ({exp(gained.low):.2f} to {exp(gained.high):.2f})"
    )
    if gained.better:
        return say("predicted-better", times=times), "good"
    if gained.worse:
        return say("predicted-worse", times=times), "bad"
    return say("prediction-cannot-be-told-yet", times=times), "dim"


def _rules(screen: Screen, knowledge: Knowledge, rules: Iterable[NewRule]) -> None:
    for place, rule in enumerate(rules):
        if not place:
            screen.line()
            screen.line(say("rules-worth-writing"), "title")
        causes = " or ".join(f"“{knowledge.causes[cause].title}”" for cause in rule.causes)
        screen.hang(
            "·" if screen.unicode else "-",
            say(
                "fix-made-it-go-away",
                fixes=titled(knowledge.fixes[rule.fix]),
                title=knowledge.defects[rule.defect].title,
                share=_share(rule.share),
                causes=causes,
                named=_named(rule.cases),
            ),
        )
        screen.whole(f"  presslore rules new --defect {rule.defect} --cause {rule.causes[0]}")


def _conditions(screen: Screen, knowledge: Knowledge, conditions: Iterable[NewCondition]) -> None:
    for place, one in enumerate(conditions):
        if not place:
            screen.line()
            screen.line(say("rules-that-hold-much-more"), "title")
        value = one.value if isinstance(one.value, str) else "yes" if one.value else "no"
        screen.hang(
            "·" if screen.unicode else "-",
            say(
                "brought-on-more-often-where",
                title=knowledge.causes[one.cause].title,
                defect=knowledge.defects[one.defect].title,
                there=_share(one.there),
                fact=knowledge.facts[one.fact].title.lower(),
                value=value,
                elsewhere=_share(one.elsewhere),
                named=_named(one.cases),
            ),
        )


def _share(share: Proportion) -> str:
    return f"{share.held} of {_number(share.cases, 'case')} ({share.low:.0%} to {share.high:.0%})".replace("%", " %")


def _named(cases: tuple[str, ...]) -> str:
    return say("cases", cases=", ".join(case[-LAST_DIGITS:] for case in cases))


# --- as JSON ---


def to_plain(lesson: Lesson, written: Path | None) -> dict[str, Any]:
    """The lesson as plain JSON values; chances with the word they were written with, if any."""
    return {
        "kept": lesson.kept,
        "cases": lesson.cases,
        "changes": [_plain_change(change) for change in lesson.changes],
        "minutes": [
            {"step": t.step, "from": t.old, "to": t.new, "measured": t.measured, "mean": t.mean, "variance": t.variance}
            for t in lesson.minutes
        ],
        "predicts": {
            "cases": lesson.compared.cases,
            "cures": lesson.compared.cures,
            "log_score_gained": _interval(lesson.compared.log_score),
            "brier_saved": _interval(lesson.compared.brier),
            "calibration": {
                "before": _calibration(lesson.compared.before),
                "after": _calibration(lesson.compared.after),
            },
        },
        "suggestions": {
            "rules": [
                {"fix": r.fix, "causes": r.causes, "defect": r.defect, **_plain_share(r.share), "case_ids": r.cases}
                for r in lesson.rules
            ],
            "conditions": [
                {
                    "cause": c.cause, "defect": c.defect, "fact": c.fact, "value": c.value,
                    "there": _plain_share(c.there), "elsewhere": _plain_share(c.elsewhere), "case_ids": c.cases,
                }
                for c in lesson.conditions
            ],
        },
        "written": None if written is None else str(written),
    }  # fmt: skip


def _plain_change(change: ChanceChange) -> dict[str, Any]:
    ids = {name: getattr(change, name) for name in ("cause", "defect", "check", "outcome", "fix")}
    return {
        "kind": change.kind,
        **{name: value for name, value in ids.items() if value},
        "if": {test.fact: test.written for test in change.condition.tests},
        "from": _chance(change.old),
        "to": _chance(change.new),
        "cases": round(change.cases, 2),
        "held": round(change.held, 2),
    }


def _chance(chance: Chance) -> Mapping[str, Any]:
    return {"chance": chance.value, "word": chance.word}


def _interval(interval: Interval) -> Mapping[str, float]:
    return {"mean": interval.mean, "low": interval.low, "high": interval.high}


def _calibration(calibration: Calibration) -> Mapping[str, float]:
    return {"error": calibration.error, "perfect_mean": calibration.usual, "perfect_95": calibration.most}


def _plain_share(share: Proportion) -> Mapping[str, float]:
    return {"held": share.held, "cases": share.cases, "low": share.low, "high": share.high}
