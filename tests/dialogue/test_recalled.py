"""What the shop knows of before is evidence: it weighs as it says, is told among the reasons, kept and read back."""

import json
from dataclasses import replace

import pytest

from diagnose.cli.shop.shelf import shipped
from diagnose.dialogue.came_out import came_out
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import (
    Answered,
    Cured,
    FoundLately,
    LastGood,
    Measured,
    Move,
    Pressed,
    Saw,
    TriedFix,
    Used,
)
from diagnose.dialogue.saving import VERSION, to_json, unknown_ids, version_of
from diagnose.dialogue.session import Session
from diagnose.dialogue.taking import after as told_after
from diagnose.foresight.last_good import CHECK, DIFFERS
from diagnose.knowledge.shop import Shop
from diagnose.speech.report import to_plain
from diagnose.speech.talk import recalled, summary, told
from tests.dialogue.saved import from_json

KNOWN = shipped()
TOWEL = (Pressed("tea-towel-polyester"), Saw(("faint-colour",)))
GOOD = LastGood("2026-11-12", {"set": 200.0, "dwell": 60.0}, {"paper": "the green box"})


def after(*moves: Move) -> Consultation:
    return Consultation(KNOWN, Shop(), Session((*TOWEL, *moves)))


def odds(consultation: Consultation, cause: str) -> float:
    chance = consultation.beliefs.alive[consultation.net.index[cause]]
    return chance / (1 - chance)


def test_a_cause_found_lately_has_its_odds_multiplied_and_no_more() -> None:
    before, then = after(), after(FoundLately("pressure-light", "2026-11-20", 2.5))
    assert odds(then, "pressure-light") == pytest.approx(2.5 * odds(before, "pressure-light"))


def test_a_figure_that_differs_multiplies_the_odds_beside_what_the_figure_says() -> None:
    now = Measured({"set": 190.0})
    assert odds(after(GOOD, now), "set-temp-low") == pytest.approx(DIFFERS * odds(after(now), "set-temp-low"))


def test_a_figure_alike_divides_them() -> None:
    now = Measured({"set": 200.0})
    with_it, without = odds(after(GOOD, now), "set-temp-low"), odds(after(now), "set-temp-low")
    assert with_it == pytest.approx(without / DIFFERS, rel=1e-5)


def test_what_is_not_told_of_this_piece_says_nothing() -> None:
    assert after(GOOD).then_and_now == ()
    assert odds(after(GOOD), "set-temp-low") == odds(after(), "set-temp-low")


def test_goods_that_differ_are_looked_at_first_and_not_asked_about_again() -> None:
    other = after(GOOD, Used({"paper": "the blue box"}))
    assert odds(other, "paper-too-light") > odds(after(), "paper-too-light")
    assert CHECK in other.desk.closed
    assert CHECK not in after(GOOD, Measured({"set": 190.0})).desk.closed


def test_where_it_was_answered_what_is_new_the_goods_count_no_second_time() -> None:
    answered = Answered(CHECK, "new-paper")
    assert after(GOOD, Used({"paper": "blue"}), answered).then_and_now == ()


def test_a_fix_that_puts_it_right_is_reckoned_with() -> None:
    early = after(FoundLately("pressure-light", "2026-11-20", 3.0), TriedFix("firm-up-one-turn", "same"))
    assert odds(early, "pressure-light") < odds(
        after(FoundLately("pressure-light", "2026-11-20", 3.0)), "pressure-light"
    )


def test_it_stands_among_the_reasons_and_in_the_summary() -> None:
    now = after(GOOD, FoundLately("set-temp-low", "2026-11-20", 3.0), Measured({"set": 190.0}))
    first = told(now, 1)[0]
    assert first.title == KNOWN.causes["set-temp-low"].title
    heat = "The heat differs from the last good piece of 12 Nov 2026: 200 °C (392 °F) then, 190 °C (374 °F) now"
    assert any(reason.startswith(f"{heat} (speaks ") for reason in first.reasons)
    lately = "Found on this press on 20 Nov 2026: The set temperature is too low for the item"
    assert any(reason.startswith(f"{lately} (speaks ") for reason in first.reasons)
    assert f"- {heat}" in summary(now)
    assert f"{recalled(now)}." in summary(now)


def test_it_is_told_with_what_differs() -> None:
    last = "Last came out well on 12 Nov 2026: 200 °C (392 °F), 60 s, paper: the green box"
    assert recalled(after(GOOD)) == last
    differing = after(GOOD, Measured({"set": 190.0, "dwell": 60.0}), Used({"paper": "blue"}))
    heat = "the heat, 190 °C (374 °F) and not 200 °C (392 °F)"
    assert recalled(differing) == f"{last}; now differs: {heat}, the paper"
    assert recalled(after(GOOD, Measured({"set": 200.0}))) == f"{last}; nothing told differs from it"
    assert recalled(after()) == ""


def test_a_session_that_is_resumed_comes_to_the_same() -> None:
    one = after(
        GOOD, FoundLately("pressure-light", "2026-11-20", 2.5), Used({"paper": "blue"}), Measured({"set": 190.0})
    )
    text = to_json(one.session, "any")
    again = from_json(text)[0]
    assert again == one.session
    assert json.loads(text)["version"] == VERSION == version_of(one.session)
    assert one.then(again).beliefs == one.beliefs


@pytest.mark.parametrize(
    ("move", "strange"),
    [
        (FoundLately("gremlins", "2026-11-20", 2.0), {"gremlins"}),
        (LastGood("2026-11-12", {"moon": 1.0}, {"cheese": "blue"}), {"moon", "cheese"}),
        (Used({"cheese": "blue"}), {"cheese"}),
    ],
)
def test_what_is_not_known_is_named(move: Move, strange: set[str]) -> None:
    assert unknown_ids(Session((move,)), KNOWN) == strange


@pytest.mark.parametrize("times", ["true", "0", "-1", "1e9", "null"])
def test_a_damaged_weight_is_refused(times: str) -> None:
    text = to_json(after(FoundLately("pressure-light", "2026-11-20", 2.0)).session, "any")
    spoilt = text.replace('"times": 2.0', f'"times": {times}')
    with pytest.raises(Exception, match="damaged"):
        from_json(spoilt)


def test_the_report_carries_it() -> None:
    now = after(GOOD, FoundLately("pressure-light", "2026-11-20", 2.5), Measured({"set": 190.0}))
    whole = to_plain(now, {})
    assert whole["found_lately"] == [{"cause": "pressure-light", "on": "2026-11-20", "times": 2.5}]
    assert whole["last_good"]["held_against"][0]["way"] == "less"
    assert whole["last_good"]["text"] == recalled(now)
    assert to_plain(after(), {})["last_good"] is None


# --- what a piece that came out well was set to ---


def test_a_good_piece_had_the_figures_that_no_fix_has_touched() -> None:
    fix = next(fix.id for fix in KNOWN.fixes.values() if "dwell-short" in fix.cures and "set-temp-low" not in fix.cures)
    end = after(Measured({"set": 200.0, "dwell": 60.0}), Used({"ink": "the old bottle"}), Cured(fix))
    figures, used = came_out(end)
    assert figures.get("set") == 200.0
    assert "dwell" not in figures or KNOWN.fixes[fix].by_figure
    assert used == {"ink": "the old bottle"}


def test_where_the_fix_says_what_to_set_that_is_what_it_had() -> None:
    fix = next(fix for fix in KNOWN.fixes.values() if fix.by_figure == "set-gap")
    end = after(Measured({"set": 170.0}), Cured(fix.id))
    window = KNOWN.items["tea-towel-polyester"].settings
    assert window is not None
    assert came_out(end)[0] == {"set": sum(window.temperature) / 2}


def test_goods_that_a_fix_may_have_changed_are_left_out() -> None:
    fix = next(fix.id for fix in KNOWN.fixes.values() if "paper-too-light" in fix.cures)
    assert "paper" not in came_out(after(Used({"paper": "green"}), Cured(fix)))[1]


def test_a_dialogue_that_was_handed_over_tells_of_no_good_piece_by_itself() -> None:
    end = after(Measured({"set": 200.0}))
    assert came_out(replace(end, session=end.session.make(Cured())))[0] == {"set": 200.0}


def test_what_was_recalled_of_other_goods_goes_with_them() -> None:
    session = Session(
        (Pressed("mug"), LastGood("2026-11-12", {"set": 190.0}), Used({"paper": "new"}), Saw(("ghosting",)))
    )
    now = told_after(session, [Pressed("slate")])
    assert [type(move) for move in now.moves] == [Pressed, Saw]


def test_a_figure_outside_the_window_is_not_noted_as_good() -> None:
    fix = next(fix.id for fix in KNOWN.fixes.values() if not {"dwell-short", "set-temp-low"} & {*fix.cures})
    figures, _ = came_out(after(Measured({"set": 150.0, "dwell": 60.0}), Cured(fix)))
    assert "set" not in figures
    assert figures["dwell"] == 60.0
