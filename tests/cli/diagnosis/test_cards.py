"""What stands on a small screen: a step with its cautions by their titles, what is done and what may be answered."""

import io
import sys
from collections.abc import Iterator
from itertools import product
from unittest import mock

import pytest

from diagnose.cli.asking.prompts import Left
from diagnose.cli.diagnosis.talk import RESULTS, Talk
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.dialogue.telling import cautions
from diagnose.knowledge.model import Check, Fix, Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.planning import Advice
from diagnose.reasoning.words import Lexicon
from tests.cli.playing import play

ROWS, COLUMNS = 24, 80
TALLER = 29  # fixes that take more rows than that with what stands over their titles, on the goods with most cautions
AT_A_FIX = ("polyester t-shirt", "there is a rectangle pressed into the shirt", "y")
BURNS = "The platen burns at a touch"


def at(knowledge: Knowledge, step: Check | Fix) -> Consultation:
    """A consultation that has come to this step, on the goods with the most cautions that it fits."""
    for item, defect in _fitting(knowledge, step):
        found = Consultation(knowledge, Shop(), Session((Pressed(item), Saw((defect,)))))
        kind, known = ("fix", found.net.cures) if isinstance(step, Fix) else ("check", found.net.checks)
        if step.id in known:
            vars(found)["advice"] = Advice(
                kind=kind, id=step.id, cost=0.0, minutes=0.0, questions=0.0, waits=0.0, options=()
            )
            return found
    raise AssertionError(f"{step.id} fits no goods")


def _fitting(knowledge: Knowledge, step: Check | Fix) -> Iterator[tuple[str, str]]:
    """Goods, those with most cautions first, and a defect on them that the step is about."""
    causes = {*step.cures} if isinstance(step, Fix) else {cause for one in step.outcomes for cause in one.shows}
    about = [each.id for each in knowledge.defects.values() if any(rule.cause in causes for rule in each.rules)]
    goods = sorted(knowledge.items.values(), key=lambda item: -len(item.cautions))
    fitting = (item.id for item in goods if step.condition.may_hold(item.job))
    return product(fitting, about or knowledge.defects)


def rows(consultation: Consultation, lexicon: Lexicon, *typed: str) -> list[str]:
    """What a terminal of so many columns shows until the person saves and leaves, row by row."""
    out, typing = io.StringIO(), io.StringIO("".join(f"{line}\n" for line in (*typed, "s")))
    talk = Talk(Screen(out, COLUMNS, colour=False, unicode=True), consultation, lexicon, lambda _: None)
    with mock.patch.object(sys, "stdin", typing), pytest.raises(Left):
        talk.go()
    return out.getvalue().splitlines()


def test_every_fix_fits_a_small_screen_with_its_answers(knowledge: Knowledge, lexicon: Lexicon) -> None:
    taller = []
    for fix in knowledge.fixes.values():
        now = at(knowledge, fix)
        shown = rows(now, lexicon)
        first = shown.index(fix.title)
        assert len(shown) - first <= ROWS, fix.id
        taller += [fix.id] if len(shown) > ROWS else []
        assert shown[-1] == "> "
        marked = "   ".join(row for row in shown[first:] if row.startswith("! ")).split("   ")
        assert marked == [f"! {knowledge.cautions[one].title}" for one in cautions(now, fix)], fix.id
        steps = next(place for place, row in enumerate(shown) if row.startswith("  1. "))
        assert steps > max((place for place, row in enumerate(shown) if row.startswith("! ")), default=0)
        answers = [f"  {number} {text}" for number, text in enumerate(RESULTS, 1)]
        assert [row for row in shown[steps:] if row in answers] == answers
    assert len(taller) == TALLER, taller


def test_every_check_fits_a_small_screen_with_its_answers(knowledge: Knowledge, lexicon: Lexicon) -> None:
    for check in knowledge.checks.values():
        now = at(knowledge, check)
        shown = rows(now, lexicon)
        assert len(shown) <= ROWS, check.id
        told = cautions(now, check)
        first = next(place for place, row in enumerate(shown) if row.startswith("  1 "))
        marked = "   ".join(row for row in shown[:first] if row.startswith("! ")).split("   ")
        assert marked == ([f"! {knowledge.cautions[one].title}" for one in told] or [""]), check.id
        assert any("! cautions" in row for row in shown[first:]) == bool(told)
        assert not any(row.startswith("! ") for row in shown[first:])


def dialogue(*typed: str) -> str:
    """A dialogue at a fix away from the press, saved and left at last."""
    _, out, err = play(["diagnose"], [*AT_A_FIX, *typed, "s"], somebody=True)
    return out + err


def test_cautions_are_told_in_full_where_they_are_asked_for(knowledge: Knowledge) -> None:
    text = knowledge.cautions["hot-platen"].text[:12]
    assert f"! {BURNS}. {text}" not in dialogue()
    for asked in ("!", "cautions", "?"):
        assert dialogue(asked).count(f"! {BURNS}. {text}") == 1
    assert dialogue("?", "?").count(f"! {BURNS}. {text}") == 1  # once read, it stands there no more
    assert dialogue("!", "!").count(f"! {BURNS}. {text}") == 2  # but can be read again


def test_where_nobody_can_ask_cautions_stand_in_full_below_the_steps(knowledge: Knowledge) -> None:
    flags = ["diagnose", "--item", "tea-towel-65-35", "--saw", "faint-colour", "--saw", "ghosting"]
    _, out, _ = play(flags, somebody=False)
    (card,) = out.split("Fix · ")[1:]
    text = knowledge.cautions["hot-platen"].text[:12]
    assert card.index(f"! {BURNS}") < card.index("  1. ") < card.index(f"! {BURNS}. {text}")


def test_what_becomes_of_the_piece_is_told_where_it_is_asked_for() -> None:
    shown = dialogue()
    assert "The spoiled piece:" not in shown
    assert dialogue("p").count("The spoiled piece:") == dialogue("p").count("The rest of the order:") == 1
    _, out, _ = play(["diagnose", "--item", "t-shirt-polyester", "--saw", "press-box"], somebody=False)
    assert out.index("  1. ") < out.index("The spoiled piece:")


def test_a_fix_can_be_left_to_hand_over_and_gone_back_to() -> None:
    shown = dialogue("c", "b")
    before, after = shown.split("Send this to your supplier or technician:")
    assert "Tear the edges" in before
    assert "It puts right" not in before.split("> c")[-1]  # that speaks for the fix, not for help
    assert "- Press box: seen" in after
    assert "How is the test piece?" in after
