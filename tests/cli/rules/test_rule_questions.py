"""Each question of the dialogue on a new rule by itself: what it offers, what it takes, and what it makes of it."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from diagnose.casebook.proposing.draft import Draft
from diagnose.cli.rules import prompts, questions, remedies
from diagnose.cli.rules.talk import Dropped, RuleTalk
from diagnose.cli.terminal.screen import screen_for
from diagnose.knowledge.model import Knowledge
from diagnose.reasoning.words import Lexicon, lexicon
from tests.casebook.proposing.conftest import SMALLEST, known
from tests.cli.playing import _Screen

PALE = Draft.of({"defect": "faint-colour"})
COOL = PALE.having("cause", "platen-runs-cool")
Asking = Callable[[RuleTalk, Draft], Draft]
Play = Callable[..., tuple[Draft, str]]


@pytest.fixture(scope="module")
def tiny() -> Knowledge:
    return known(SMALLEST)


@pytest.fixture(scope="module")
def ears(tiny: Knowledge, tmp_path_factory: pytest.TempPathFactory) -> Lexicon:
    return lexicon(tiny, tmp_path_factory.mktemp("lexicon"))


@pytest.fixture
def asked(tiny: Knowledge, ears: Lexicon, monkeypatch: pytest.MonkeyPatch) -> Play:
    """Asks a question, types the lines, and gives the draft after it and what stood on the screen. Every line must
    have been wanted."""

    def ask(asking: Asking, draft: Draft, *typed: str) -> tuple[Draft, str]:
        shown, lines = _Screen(), iter(typed)
        monkeypatch.setattr("builtins.input", lambda: next(lines))
        after = asking(RuleTalk(screen_for(shown), tiny, ears, ()), draft)
        assert list(lines) == []
        return after, " ".join(shown.getvalue().split())

    return ask


# --- the defect ---


def test_the_defect_in_own_words_is_confirmed(asked: Play) -> None:
    after, shown = asked(questions.ask_defect, Draft(), "?", "xyzzy", "pale", "n", "pale", "y")
    assert after.one("defect") == "faint-colour"
    assert questions.DEFECT_HELP in shown
    assert "I did not recognise that. Say it another way, or type l for the list." in shown
    assert shown.count("I take it that you mean: - Faint colour") == 2


def test_the_defect_from_the_list(asked: Play) -> None:
    after, shown = asked(questions.ask_defect, Draft(), "l", "n", "l", "1")
    assert after.one("defect") == "faint-colour"
    assert shown.count("Which defect? 1 Faint colour") == 2
    with pytest.raises(prompts.Back):
        asked(questions.ask_defect, Draft(), "b")


def two_defects(tiny: Knowledge) -> Knowledge:
    """The same with a second defect, which no rule speaks of."""
    ghost = replace(
        tiny.defects["faint-colour"], id="double-print", title="Double print", said=("ghost",), rules=(), cases=()
    )
    return replace(
        tiny, version="two-defects", defects={**tiny.defects, "double-print": replace(ghost, looks="Twice.")}
    )


def test_of_two_defects_one_is_picked(tiny: Knowledge, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    two, shown, lines = (
        two_defects(tiny),
        _Screen(),
        iter(["washed out, and a double print", "n", "washed out, and a double print", "2"]),
    )
    monkeypatch.setattr("builtins.input", lambda: next(lines))
    talk = RuleTalk(screen_for(shown), two, lexicon(two, tmp_path), ())
    after = questions.ask_defect(talk, Draft())
    said = " ".join(shown.getvalue().split())
    offered = [
        said.index(title, said.index("A rule is about one defect.")) for title in ("Faint colour", "Double print")
    ]
    assert after.one("defect") == ("faint-colour", "double-print")[offered[0] < offered[1]]
    assert said.count("A rule is about one defect. Which of these?") == 2
    assert "I take it" not in said


# --- the cause ---


def test_a_cause_that_is_known_is_offered(asked: Play) -> None:
    assert asked(questions.ask_cause, PALE, "dwell-short")[0].one("cause") == "dwell-short"
    after, shown = asked(questions.ask_cause, PALE, "pressed too short", "7", "words", "1")
    assert (after.one("cause"), after.has("new-cause")) == ("dwell-short", False)
    assert "Is one of these the cause? 1 Pressed too short" in shown
    assert "Type a number, or n for a new cause." in shown


def test_a_new_cause_gets_a_title(asked: Play) -> None:
    after, shown = asked(questions.ask_cause, PALE, "gulls on the line", "")
    assert (after.one("new-cause"), after.has("cause")) == ("Gulls on the line", False)
    assert "No cause that is known sounds like that: it is taken as new." in shown
    after, _ = asked(questions.ask_cause, PALE, "pressed too short", "n", "Gulls stole a second")
    assert after.one("new-cause") == "Gulls stole a second"


def test_the_nearest_rules_are_shown_and_may_be_it(asked: Play) -> None:
    after, shown = asked(questions.ask_nearest, COOL, "?", "y")
    assert after == COOL
    assert "- The platen runs cooler than its display → Faint colour (very likely, 88 %)" in shown
    assert "Pressed too short" not in shown
    assert "A rule that says the same twice counts twice." in shown
    with pytest.raises(Dropped):
        asked(questions.ask_nearest, COOL, "n")


def test_where_no_rule_is_near_nothing_is_asked(tiny: Knowledge, tmp_path: Path) -> None:
    two, shown = two_defects(tiny), _Screen()
    new = Draft.of({"defect": "ghosting", "new-cause": "Xyzzy"})
    talk = RuleTalk(screen_for(shown), two, lexicon(two, tmp_path), ())
    assert (questions.ask_nearest(talk, new), shown.getvalue()) == (new, "")


def test_the_family_by_number_or_name(asked: Play) -> None:
    after, shown = asked(questions.ask_family, PALE, "2")
    assert after.one("family") == "time"
    assert "What is it a matter of? 1" in shown
    after, shown = asked(questions.ask_family, PALE, "gulls", "heat")
    assert after.one("family") == "heat"
    assert "expected one of heat, time" in shown


# --- the rule ---


@pytest.mark.parametrize(
    ("typed", "when"),
    [
        (("e",), ()),
        (("1", "1", "e"), ("item.hard=yes",)),
        (("1", "2", "e"), ("item.hard=no",)),
        (("2", "1 2", "e"), ("item.family=cloth,ceramic",)),
        (("3", "under 65", "e"), ("item.polyester=under 65",)),
        (("3", "some", "50 to 80", "e"), ("item.polyester=50 to 80",)),
        (("words", "2", "2", "1", "1", "e"), ("item.family=ceramic", "item.hard=yes")),
    ],
)
def test_the_conditions_of_a_rule(asked: Play, typed: tuple[str, ...], when: tuple[str, ...]) -> None:
    after, shown = asked(questions.ask_when, COOL, *typed)
    assert after.each("when") == when
    assert shown.startswith("Is that so for every job, or only where ... 1 Hard item 2 Kind of item 3 Polyester share")
    assert ("And only where ..." in shown) == (len(typed) > 1)
    assert ("Type a number, or e." in shown) == ("words" in typed)
    if "item.polyester" in "".join(when):
        assert "Polyester share: which? In %: under 65, at least 50, 50 to 80, or one number." in shown


def test_a_fact_that_was_named_is_not_offered_again(asked: Play) -> None:
    after, shown = asked(questions.ask_when, COOL.having("when", "item.hard=no"), "1", "1", "e")
    assert shown.startswith("And only where ... 1 Kind of item 2 Polyester share")
    assert after.each("when") == ("item.hard=no", "item.family=cloth")


def test_a_rule_that_is_there_is_said_and_left(asked: Play) -> None:
    with pytest.raises(Dropped):
        asked(questions.ask_same, COOL, "n")
    apart = COOL.having("when", "item.hard=no")
    assert asked(questions.ask_same, PALE.having("cause", "dwell-short").having("when", "item.polyester=under 50")) == (
        PALE.having("cause", "dwell-short").having("when", "item.polyester=under 50"),
        "",
    )
    with pytest.raises(prompts.Back):
        asked(questions.ask_same, apart.without("when"), "words", "b")


@pytest.mark.parametrize(
    ("typed", "basis"),
    [
        (("1",), ("this shop's cases",)),
        (("2 1",), ("common practice", "this shop's cases")),
        (("3", "1"), ("mosteller-youtz-1990",)),
        (("2,3", "1"), ("mosteller-youtz-1990", "common practice")),
        (("4", "none", "2"), ("common practice",)),
    ],
)
def test_on_whose_word(asked: Play, typed: tuple[str, ...], basis: tuple[str, ...]) -> None:
    after, shown = asked(questions.ask_basis, COOL, *typed)
    assert after.each("basis") == basis
    titles = "1 This shop's own cases 2 Common practice of the trade 3 A published source"
    assert f"On whose word does this stand? {titles}" in shown
    source = "Which source? 1 F. Mosteller and C. Youtz, 1990: Quantifying Probabilistic Expressions"
    assert (source in shown) == ("mosteller-youtz-1990" in basis)


def test_the_cases_it_was_learnt_from(asked: Play) -> None:
    own = COOL.having("basis", "this shop's cases")
    after, shown = asked(questions.ask_learned, own, "", "2026-031, 2026-032  7")
    assert after.each("learned-from") == ("2026-031", "2026-032", "7")
    assert "Enter for none." not in shown
    after, shown = asked(questions.ask_learned, COOL.having("basis", "common practice"), "")
    assert not after.has("learned-from")
    assert "Enter for none." in shown


# --- the fix ---


def test_a_fix_where_one_is_known(asked: Play) -> None:
    after, shown = asked(remedies.ask_fix, COOL, "")
    assert after == COOL
    assert shown.startswith("- Known to put it right: Set the heat by the probe Is there another fix to write down?")
    after, shown = asked(remedies.ask_fix, COOL, "press five seconds longer", "1")
    assert after.one("fix") == "press-longer"
    assert "Is one of these the fix? 1 Press five seconds longer" in shown


def test_a_new_fix(asked: Play) -> None:
    new = PALE.having("new-cause", "Gulls on the line")
    after, shown = asked(remedies.ask_fix, new, "", "chase the gulls", "")
    assert (after.one("new-fix"), after.has("fix")) == ("Chase the gulls", False)
    assert shown.startswith("What puts it right? Your own words.")
    assert "Type a few words." in shown
    assert "Known to put it right" not in shown


@pytest.mark.parametrize(
    ("steps", "typed", "taken"),
    [
        (("Raise the heat.",), "y", ("hot-platen",)),
        (("Raise the heat.",), "n", ("none",)),
        (("Raise the heat.",), "1", ("hot-platen",)),
        (("Bring them in.",), "n", ("none",)),
    ],
)
def test_the_cautions_that_steps_call_for(
    asked: Play, steps: tuple[str, ...], typed: str, taken: tuple[str, ...]
) -> None:
    def asking(talk: RuleTalk, draft: Draft) -> Draft:
        return remedies.ask_cautions(talk, draft, "caution", "step")

    after, shown = asked(asking, PALE.having("step", *steps), typed)
    assert after.each("caution") == taken
    hot = steps == ("Raise the heat.",)
    assert ("1 The platen burns *" in shown) == hot
    assert ("those with a *" in shown) == hot


# --- the check ---


def test_a_check_that_is_known_and_what_it_finds(asked: Play) -> None:
    after, shown = asked(remedies.ask_check, COOL, "measure the platen with a probe", "1", "words", "1")
    assert after.one("check") == "probe-the-platen=reads-low"
    assert "- Known to tell it: Measure the platen: Lower than the display" in shown
    assert "Is there another check that tells this cause?" in shown
    assert "What does it find where your cause is there? 1 Lower than the display 2 The timer jumps meanwhile" in shown
    assert "As the display" not in shown
    assert "Type a number." in shown


def test_no_check_or_a_new_one(asked: Play) -> None:
    new = PALE.having("new-cause", "Gulls on the line")
    after, shown = asked(remedies.ask_check, new, "")
    assert after == new
    assert shown.startswith("Which check tells this cause? Your own words. Enter for none.")
    assert asked(remedies.ask_check, new, "count the gulls", "Count them")[0].one("new-check") == "Count them"


@pytest.mark.parametrize(("typed", "kind"), [("1", "look"), ("2", "ask"), ("3", "measure"), ("4", "try")])
def test_the_kind_of_a_check(asked: Play, typed: str, kind: str) -> None:
    after, shown = asked(remedies.ask_kind, COOL, "sniff", typed)
    assert after.one("kind") == kind
    assert "Type a number." in shown


def test_what_a_check_needs(asked: Play) -> None:
    assert asked(remedies.ask_needs, COOL, "a probe, a magnifier")[0].each("needs") == ("a probe", "a magnifier")
    assert not asked(remedies.ask_needs, COOL, "")[0].has("needs")


# --- the worked case ---


def test_what_was_pressed(asked: Play) -> None:
    after, shown = asked(remedies.ask_item, COOL, "xyzzy", "tea towel, 80% polyester")
    assert (after.one("item"), after.each("job")) == ("tea-towel", ("item.polyester=80", "item.family=blend"))
    assert "I do not know that item." in shown
    assert "Item: Tea towel for the harbour fete" in shown
    assert asked(remedies.ask_item, COOL, "")[0] == COOL
    after, shown = asked(remedies.ask_item, COOL, "100% cotton")
    assert (after.has("item"), after.each("job")) == (False, ("item.polyester=0",))
    assert "Item: not a known kind" in shown


@pytest.mark.parametrize(
    ("value", "typed"), [(True, "yes"), (False, "no"), (65.0, "65"), (0.5, "0.5"), ("cloth", "cloth")]
)
def test_a_value_as_it_is_typed(value: object, typed: str) -> None:
    assert remedies.plain_value(value) == typed


def test_what_else_was_seen(asked: Play) -> None:
    def asking(talk: RuleTalk, draft: Draft) -> Draft:
        return remedies.ask_seen(talk, draft, "saw", "What else was seen?")

    other = Draft.of({"defect": "ghosting"})
    after, shown = asked(asking, other, "xyzzy", "no faint colour")
    assert after.each("saw") == ("faint-colour",)
    assert "I did not recognise that." in shown
    assert "+ Faint colour" in shown
    after, shown = asked(asking, PALE, "pale", "")  # that is the rule's own defect
    assert not after.has("saw")
    assert "+ Faint colour" not in shown


def test_the_checks_that_were_made(asked: Play) -> None:
    after, shown = asked(remedies.ask_answers, COOL, "2", "")
    assert after.each("answer") == ("probe-the-platen=reads-low",)
    assert shown.startswith("Measure the platen. What does a probe on the platen read? 1 As the display 2 Lower")
    assert not asked(remedies.ask_answers, COOL, "n", "")[0].has("answer")
    new = PALE.having("new-cause", "Gulls").having("new-check", "Count them").having("asks", "How many?")
    new = new.having("quiet", "None").having("telling", "Nine")
    for typed, answer in (("1", ("new-check=quiet",)), ("2", ("new-check=telling",)), ("n", ())):
        after, shown = asked(remedies.ask_answers, new, typed, "")
        assert after.each("answer") == answer
        assert shown.startswith("Count them. How many? 1 None 2 Nine")
    named = PALE.having("new-cause", "Gulls").having("check", "probe-the-platen=reads-low")
    assert asked(remedies.ask_answers, named, "2", "")[0].each("answer") == ("probe-the-platen=reads-low",)
    after, _ = asked(remedies.ask_answers, new, "n", "measure the platen", "1", "1", "")
    assert after.each("answer") == ("probe-the-platen=agrees",)


def test_what_was_tried(asked: Play) -> None:
    after, _ = asked(remedies.ask_tried, COOL, "press five seconds longer", "1", "set the heat by the probe", "1", "")
    assert after.each("tried") == ("press-longer", "set-heat-by-probe")
    assert not asked(remedies.ask_tried, COOL, "")[0].has("tried")


# --- which of them are asked ---


def wanted(said: dict[str, Any], talk: Any) -> list[str]:
    """The fields of the questions that are asked after what was said."""
    draft = Draft.of(said)
    return [
        one.fields[0] for one in (*questions.QUESTIONS, *remedies.QUESTIONS) if one.fields and one.wanted(talk, draft)
    ]


def test_what_belongs_to_a_new_cause_fix_or_check_is_asked_of_those_alone(tiny: Knowledge, ears: Lexicon) -> None:
    talk = RuleTalk(screen_for(_Screen()), tiny, ears, ())
    always = ["defect", "cause", "brings", "when", "why", "basis", "learned-from", "fix", "check"]
    case = ["story", "item", "saw", "not-seen", "answer", "tried"]
    cause, fix = ["family", "about", "turns-up"], ["step", "minutes", "waits", "cures", "caution"]
    check = [
        "kind",
        "asks",
        "how",
        "needs",
        "check-minutes",
        "check-waits",
        "quiet",
        "telling",
        "shows",
        "otherwise",
        "check-caution",
    ]
    assert set(wanted({}, talk)) == {*always, *case}
    assert set(wanted({"new-cause": "x"}, talk)) == {*always, *case, *cause}
    assert set(wanted({"new-fix": "x"}, talk)) == {*always, *case, *fix}
    assert set(wanted({"fix": "x"}, talk)) == {*always, *case, "cures"}
    assert set(wanted({"new-check": "x"}, talk)) == {*always, *case, *check}
    assert set(wanted({"check": "x=y"}, talk)) == {*always, *case, "shows"}
