"""The words for what is known: always a number beside the word, and nothing that reads like code."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.dialogue.moves import Answered, Cured, DidNotSee, HandedOver, TriedFix
from diagnose.knowledge.conditions import ALWAYS, Condition, Test, parse_span
from diagnose.knowledge.model import ScaleWord
from diagnose.reasoning.reasons import findings
from diagnose.speech.amounts import degrees_between, in_words, minutes, money, percent, side
from diagnose.speech.conditions import condition_words, value_words
from diagnose.speech.talk import (
    questions_after,
    sentence,
    summary,
    told,
    what_would_change,
    why_check,
    why_fix,
    why_step,
)
from tests.dialogue.workshop import KNOWLEDGE, at_work, opened

SCALE = {word: ScaleWord(word, value, "-") for word, value in (("rarely", 0.07), ("even", 0.5), ("often", 0.75))}


@pytest.mark.parametrize(
    ("chance", "words"),
    [(0.0, "0 %"), (0.001, "under 1 %"), (0.336, "34 %"), (0.9949, "99 %"), (0.999, "over 99 %"), (1.0, "100 %")],
)
def test_per_cent(chance: float, words: str) -> None:
    assert percent(chance) == words


@given(chance=st.floats(0, 1))
def test_a_word_for_a_chance_has_its_number_beside_it(chance: float) -> None:
    word, number = in_words(chance, SCALE).split(", ")
    assert word in SCALE
    assert number == percent(chance)
    assert in_words(chance, {}) == percent(chance)


@pytest.mark.parametrize(
    ("chance", "word"), [(0.0, "rarely"), (0.2, "rarely"), (0.3, "even"), (0.6, "even"), (1.0, "often")]
)
def test_the_nearest_word_is_taken(chance: float, word: str) -> None:
    assert in_words(chance, SCALE).startswith(word)


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (0, "half a minute"),
        (0.5, "half a minute"),
        (0.75, "1 min"),
        (59.4, "59 min"),
        (59.6, "1 h"),
        (80, "1 h 20 min"),
    ],
)
def test_minutes(value: float, words: str) -> None:
    assert minutes(value) == words


def test_money_and_temperatures() -> None:
    assert money(1.5, "") == "1.50"
    assert money(1.5, "GBP") == "GBP 1.50"
    assert degrees_between((180, 200), "C") == "180–200 °C (356–392 °F)"
    assert degrees_between((180, 200), "F") == "356–392 °F (180–200 °C)"


@pytest.mark.parametrize(
    ("weight", "words"),
    [
        (13, "strongly for"),
        (6, "clearly for"),
        (2, "somewhat for"),
        (0.1, "slightly for"),
        (-2, "somewhat against"),
        (-20, "strongly against"),
    ],
)
def test_the_weight_of_evidence(weight: float, words: str) -> None:
    assert side(weight) == f"speaks {words} it"


@pytest.mark.parametrize(
    ("test", "words"),
    [
        (Test("item.thickness", span=parse_span("< 5"), written="< 5"), "thickness: under 5 mm"),
        (Test("item.thickness", span=parse_span(">= 5"), written=">= 5"), "thickness: at least 5 mm"),
        (Test("item.thickness", span=parse_span("2..5"), written="2..5"), "thickness: from 2 to 5 mm"),
        (Test("item.family", ("cloth",)), "kind: cloth"),
        (Test("item.family", ("cloth", "ceramic")), "kind: cloth or ceramic"),
        (Test("press.levelled", (True,)), "levelled: yes"),
        (Test("press.age", (3.0,)), "press.age: 3"),
    ],
)
def test_a_condition_in_words(test: Test, words: str) -> None:
    assert condition_words(Condition((test,)), KNOWLEDGE.facts) == words


def test_no_condition_and_several() -> None:
    assert condition_words(ALWAYS, KNOWLEDGE.facts) == ""
    both = Condition((Test("item.family", ("cloth",)), Test("press.levelled", (False,))))
    assert condition_words(both, KNOWLEDGE.facts) == "kind: cloth and levelled: no"


@pytest.mark.parametrize(
    ("value", "words"), [(True, "yes"), (False, "no"), ("cloth", "cloth"), (65.0, "65 %"), (0.5, "0.5 %")]
)
def test_the_value_of_a_fact(value: object, words: str) -> None:
    assert value_words(value, "%") == words  # type: ignore[arg-type]


SESSION = (
    opened("pale", "steam-marks")
    .make(DidNotSee(("second-copy",)))
    .make(Answered("feel", "damp"))
    .make(TriedFix("pre-press", "better", ("steam-marks",)))
    .make(TriedFix("press-longer"))
)


def test_every_finding_has_a_sentence_without_a_full_stop() -> None:
    sentences = [sentence(finding, at_work(SESSION)) for finding, _ in findings(at_work(SESSION).evidence)]
    assert sorted(sentences) == sorted(
        [
            "pale: seen",
            "steam-marks: seen",
            "second-copy: looked for, not seen",
            "feel: damp",
            "Tried: pre-press; it got better, not right",
            "Tried: press-longer; not cured",
        ]
    )


def test_what_is_believed_is_told_likeliest_first_with_its_reasons() -> None:
    causes = told(at_work(opened("pale")), 3)
    assert 1 <= len(causes) <= 3
    assert all("pale: seen (speaks " in " ".join(cause.reasons) for cause in causes)
    for change in what_would_change(at_work(opened("pale"))):
        assert "would put first: " in change


def test_each_step_says_why() -> None:
    consultation = at_work(opened("pale"))
    for check in KNOWLEDGE.checks:
        assert why_check(consultation, check).startswith("It ")
    for fix in KNOWLEDGE.fixes:
        assert why_fix(consultation, fix).startswith("It ")
    assert why_step(consultation)


def test_a_call_for_help_says_why() -> None:
    session = opened("pale")
    for fix in KNOWLEDGE.fixes:
        session = session.make(TriedFix(fix, "same"))
    consultation = at_work(session)
    assert consultation.advice.kind == "call"
    assert why_step(consultation).endswith(".")


def test_the_summary_is_whole_and_plain() -> None:
    lines = summary(at_work(SESSION))
    assert lines[0] == "Item: fete-towel"
    assert "kind: cloth" in lines[1]
    assert [line for line in lines if line.startswith("- Tried: ")] == [
        "- Tried: pre-press; it got better, not right",
        "- Tried: press-longer; not cured",
    ]
    assert "What may be behind it:" in lines
    assert "What may be behind it:" in summary(at_work(SESSION.make(HandedOver())))
    cured = summary(at_work(SESSION.make(Cured("iron-dry"))))
    assert cured[-1] == "Cured by: iron-dry"
    assert "What may be behind it:" not in cured
    assert summary(at_work(SESSION.make(Cured())))[-1] == "Cured."


def test_about_how_many_more_questions_is_said_in_whole_ones() -> None:
    wide, certain = at_work(opened("pale")), at_work(opened("second-copy", "pale"))
    assert {questions_after(wide), questions_after(certain)} <= {
        "perhaps the last question",
        "about 1 more question",
        "about 2 more questions",
    }
    told = [replace(wide.advice, questions=count) for count in (0.0, 1.4, 1.5000000001, 2.6, 4.0)]
    said = []
    for advice in told:
        now = at_work(opened("pale"))
        vars(now)["advice"] = advice
        said.append(questions_after(now))
    last, one = "perhaps the last question", "about 1 more question"
    assert said == [last, last, one, "about 2 more questions", "about 3 more questions"]
