"""What a change of rules does to rules, worked cases and past cases."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.casebook import comparing
from diagnose.casebook.case import Case
from diagnose.casebook.comparing import compare, rule_changes, worked_changes
from diagnose.casebook.replaying import alike, minutes_to_cure
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, CannotTell, Cured, HandedOver, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from tests.casebook.quay import RULES, lay_out
from tests.casebook.some import a_case

TOWEL = Pressed("tea-towel-65-35", {"item.polyester": 65})
PALE = Saw(("faint-colour",))
DOOR: list[Move] = [TOWEL, PALE, Answered("look-at-the-door", "open"), Cured("shut-the-door")]


@pytest.fixture(scope="module")
def shipped() -> Knowledge:
    return load(shipped_folder())


@pytest.fixture(scope="module")
def quay(tmp_path_factory: pytest.TempPathFactory) -> Knowledge:
    return load(shipped_folder(), lay_out(tmp_path_factory.mktemp("quay")))


def with_rules(folder: Path, text: str) -> Knowledge:
    return load(shipped_folder(), lay_out(folder, **{"rules__faint-colour": text}))


def test_nothing_changes_against_itself(shipped: Knowledge) -> None:
    found = compare(shipped, shipped, Shop(), [a_case(1, [PALE, Cured("set-heat-by-probe")])])
    assert (found.rules, found.entries) == ((), ())
    assert {change.verdict for change in found.worked} | {change.verdict for change in found.past} == {comparing.SAME}
    assert len(found.worked) == sum(len(defect.cases) for defect in shipped.defects.values())


def test_what_a_new_rule_adds(shipped: Knowledge, quay: Knowledge) -> None:
    found = compare(shipped, quay, Shop())
    assert [(c.kind, c.rule.cause, c.rule.defect) for c in found.rules] == [("added", "draughty-door", "faint-colour")]
    assert [(entry.kind, entry.among, entry.id) for entry in found.entries] == [
        ("added", "causes", "draughty-door"),
        ("added", "checks", "look-at-the-door"),
        ("added", "fixes", "shut-the-door"),
        ("added", "cautions", "swinging-door"),
    ]


def test_changed_and_removed_rules(shipped: Knowledge, quay: Knowledge, tmp_path: Path) -> None:
    unsure = with_rules(tmp_path, RULES.replace("brings: very likely", "brings: even"))
    (change,) = rule_changes(quay, unsure)
    assert change.before is not None
    assert change.after is not None
    assert (change.kind, change.before.brings.value, change.after.brings.value) == ("changed", 0.875, 0.5)
    assert [one.kind for one in rule_changes(quay, shipped)] == ["removed"]


def test_a_worked_case_whose_cause_was_unknown_is_now_solved(shipped: Knowledge, quay: Knowledge) -> None:
    (change,) = [one for one in worked_changes(shipped, quay) if one.case.first == ("draughty-door",)]
    assert (change.before, change.verdict) == (None, comparing.SOONER)
    assert change.after is not None
    assert change.after.place == 1
    (back,) = [one for one in worked_changes(quay, shipped) if one.case.first == ("draughty-door",)]
    assert (back.after, back.verdict) == (None, comparing.LATER)


def test_a_weaker_rule_puts_its_case_later(quay: Knowledge, tmp_path: Path) -> None:
    unsure = with_rules(tmp_path, RULES.replace("brings: very likely", "brings: rarely"))
    (change,) = [one for one in worked_changes(quay, unsure) if one.case.first == ("draughty-door",)]
    assert change.verdict == comparing.LATER


def test_past_cases_cured_by_a_fix_that_was_unknown(shipped: Knowledge, quay: Knowledge) -> None:
    others = [a_case(8, [PALE, HandedOver()]), a_case(9, [PALE, Cured()])]
    found = compare(shipped, quay, Shop(), [*(a_case(number, DOOR) for number in range(5)), *others])
    assert [change.verdict for change in found.past] == [comparing.SOONER] * 5
    assert all(change.before is None and change.after is not None for change in found.past)
    assert found.past_left_out == 2


def test_the_minutes_are_those_of_the_steps_proposed_with_the_answers_recorded(quay: Knowledge) -> None:
    start, mug = Consultation(quay, Shop(), Session()), Pressed("mug", {})
    opening = start.then(Session((mug, PALE)))
    first = opening.advice.id
    cures = set()
    for outcome in quay.checks[first].outcomes:
        answered = Answered(first, outcome.id)
        consultation, spent = opening.then(opening.session.make(answered)), _price(quay, first)
        while (advice := consultation.advice).kind == "check":
            spent += _price(quay, advice.id)
            again = advice.id == first  # a second look, which shows the same
            reply = Answered(first, outcome.id, again) if again else CannotTell(advice.id)
            consultation = consultation.then(consultation.session.make(reply))
        assert advice.kind == "fix"
        cures.add(advice.id)
        spent += quay.fixes[advice.id].minutes + quay.items[mug.item].test_minutes
        assert minutes_to_cure(start, a_case(1, [mug, PALE, answered, Cured(advice.id)])) == spent
    assert len(cures) > 1


def _price(knowledge: Knowledge, check: str) -> float:
    return knowledge.checks[check].minutes + Shop().rates.asking


def test_a_case_with_no_word_for_what_was_seen_is_never_solved(shipped: Knowledge, quay: Knowledge) -> None:
    odd = a_case(1, [TOWEL, Saw(("sails-on-the-towel",)), Cured("set-heat-by-probe")])
    assert minutes_to_cure(Consultation(shipped, Shop(), Session()), odd) is None
    assert minutes_to_cure(Consultation(shipped, Shop(), Session()), a_case(2, DOOR)) is None


def test_alike_cases_are_gone_through_once(shipped: Knowledge, monkeypatch: pytest.MonkeyPatch) -> None:
    calls: list[Case] = []

    def counting(_: Consultation, case: Case) -> float:
        calls.append(case)
        return 1.0

    monkeypatch.setattr(comparing, "minutes_to_cure", counting)
    moves: list[Move] = [PALE, TriedFix("press-longer", "same"), Cured("set-heat-by-probe")]
    compare(shipped, shipped, Shop(), [a_case(number, moves) for number in range(9)])
    assert len(calls) == 2


@given(st.lists(st.sampled_from(sorted(("faint-colour", "ghosting", "nobody-knows-it"))), min_size=1, unique=True))
def test_alike_hangs_on_what_the_case_shows_alone(seen: list[str]) -> None:
    one = a_case(1, [Saw(tuple(seen)), Cured("set-heat-by-probe")])
    other = a_case(2, [Saw(tuple(reversed(seen))), Cured("set-heat-by-probe")], minutes=3.0, spoilt=2)
    assert alike(one) == alike(other)
    assert alike(one) != alike(replace(one, press="left"))
