"""A check or fix on trial waits: it is proposed only where no settled one is left that does the same."""

from dataclasses import replace

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import CannotDo, CannotTell, Saw
from diagnose.dialogue.rehearsal import rehearse
from diagnose.dialogue.session import Session
from diagnose.knowledge.conditions import ALWAYS
from diagnose.knowledge.loading import load
from diagnose.knowledge.model import TRIAL, Chance, Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.speech.report import to_plain

WHOSE = "the bundle of a shop that gives no name"
SURE = Chance(0.99)


def with_strangers(known: Knowledge) -> Knowledge:
    """What ships, with a fix and a check that claim to serve for everything in no time."""
    fix = replace(
        next(iter(known.fixes.values())),
        id="a-strangers-fix",
        minutes=0.0,
        cures=dict.fromkeys(known.causes, SURE),
        condition=ALWAYS,
        origin=WHOSE,
        status=TRIAL,
    )
    model = known.checks["probe-the-platen"]
    quiet, *loud = model.outcomes
    told = (quiet, *(replace(one, shows=dict.fromkeys(known.causes, SURE)) for one in loud[:1]))
    check = replace(
        model, id="a-strangers-check", minutes=0.0, outcomes=told, condition=ALWAYS, origin=WHOSE, status=TRIAL
    )
    return replace(
        known, fixes={"a-strangers-fix": fix, **known.fixes}, checks={"a-strangers-check": check, **known.checks}
    )


def test_it_never_comes_before_a_settled_one() -> None:
    known = load()
    strange = with_strangers(known)
    for defect in known.defects:
        before, after = (Consultation(one, Shop(), Session((Saw((defect,)),))) for one in (known, strange))
        assert (before.advice.kind, before.advice.id) == (after.advice.kind, after.advice.id), defect


def test_it_never_comes_before_one_in_a_whole_dialogue() -> None:
    known = load()
    strange, session = with_strangers(known), Session((Saw(("faint-colour",)),))
    dialogues = (rehearse(Consultation(one, Shop(), session), frozenset({"dwell-short"})) for one in (known, strange))
    for was, now in zip(*dialogues, strict=True):
        assert (was.consultation.advice.id, was.move) == (now.consultation.advice.id, now.move)


def test_it_comes_once_no_settled_one_is_left() -> None:
    strange = with_strangers(load())
    settled = [CannotDo(fix) for fix in strange.fixes if fix != "a-strangers-fix"]
    asked = [CannotTell(check) for check in strange.checks if check != "a-strangers-check"]
    left = Consultation(strange, Shop(), Session((Saw(("faint-colour",)), *settled, *asked)))
    assert {option.step.id for option in left.advice.options if option.step} == {"a-strangers-fix", "a-strangers-check"}
    told = to_plain(left, {})["next"]
    assert (told["id"], told["origin"], told["trial"]) == (left.advice.id, WHOSE, True)


def test_settled_it_counts_like_any_other() -> None:
    strange = with_strangers(load())
    fixes = {**strange.fixes, "a-strangers-fix": replace(strange.fixes["a-strangers-fix"], status="settled")}
    now = Consultation(replace(strange, fixes=fixes), Shop(), Session((Saw(("faint-colour",)),)))
    assert "a-strangers-fix" in {option.step.id for option in now.advice.options if option.step}
