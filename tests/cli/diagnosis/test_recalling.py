"""What a shop knows of before: noted by hand or by a dialogue, shown in the next one, weighed, left out when asked."""

import json
from pathlib import Path

import pytest

from diagnose.casebook.good import FILE
from diagnose.cli import exits
from tests.cli.playing import play

GOOD = [
    "good",
    "tea",
    "towel",
    "--set",
    "200C",
    "--dwell",
    "60s",
    "--used",
    "paper=the green box",
    "--on",
    "2026-11-12",
]
PALE = ["diagnose", "--item", "tea towel", "--saw", "faint-colour"]
LAST = "Last came out well on 12 Nov 2026: 200 °C (392 °F), 60 s, paper: the green box"


def flat(text: str) -> str:
    return " ".join(text.split())


def called(*args: str) -> str:
    code, out, err = play(list(args))
    assert code == exits.GOOD, err
    return flat(out)


def report(*more: str) -> dict[str, object]:
    whole: dict[str, object] = json.loads(play([*PALE, *more, "--json"])[1])
    return whole


def test_what_is_noted_is_shown_and_listed() -> None:
    assert called("good") == "No good piece is noted yet: presslore good notes one."
    noted_now = "Noted as the last good one, Tea towel, 100 % polyester: 200 °C (392 °F), 60 s, paper: the green box."
    assert called(*GOOD) == noted_now
    assert called("good") == f"- Tea towel, 100 % polyester: {LAST}"
    (noted,) = json.loads(play(["good", "--json"])[1])
    assert (noted["item"], noted["figures"]) == ("tea-towel-polyester", {"set": 200.0, "dwell": 60.0})


def test_the_next_one_tells_what_differs_and_looks_there_first() -> None:
    before = flat(play([*PALE, "--set", "190C"])[1])
    called(*GOOD)
    out = flat(play([*PALE, "--set", "190C", "--used", "paper=the green box"])[1])
    assert LAST not in before
    assert f"{LAST}; now differs: the heat, 190 °C (374 °F) and not 200 °C (392 °F)." in out
    assert "1 The set temperature is too low for the item" in out


def test_json_carries_it_and_no_recall_leaves_it_out() -> None:
    called(*GOOD)
    found = report("--set", "190C")["last_good"]
    assert isinstance(found, dict)
    assert [(each["kind"], each["way"]) for each in found["held_against"]] == [("set", "less")]
    assert report("--set", "190C", "--no-recall")["last_good"] is None


def test_a_saved_dialogue_goes_on_with_what_was_known_then(tmp_path: Path) -> None:
    called(*GOOD)
    kept = str(tmp_path / "kept.json")
    play([*PALE, "--set", "190C", "--save", kept])
    before = report("--resume", kept)["causes"]
    called(*GOOD[:4], "190C", "--dwell", "60s")
    assert report("--resume", kept)["causes"] == before


OPENED = ["tea towel", "pale", "y"]


def test_a_dialogue_asks_which_goods_are_others_now_and_can_leave_it_out() -> None:
    called(*GOOD)
    shown = {
        answer: flat(play(["diagnose"], [*OPENED, answer, "w", "s"], somebody=True)[1]) for answer in ("n", "1", "x")
    }
    for out in shown.values():
        assert f"The shop knows of before: - {LAST}." in out
        assert "Which of these are not the same this time? 1 paper: the green box" in out
    assert "The paper differs from the last good piece of 12 Nov 2026: the green box then, another now" in shown["1"]
    assert "The paper differs" not in shown["n"] + shown["x"]


def test_a_dialogue_that_ends_well_notes_its_piece() -> None:
    typed = [*OPENED, "set 200C, 60 seconds", "y", "t", "1"]
    code, out, err = play(["diagnose"], typed, somebody=True)
    assert code == exits.GOOD, out + err
    assert "Done. Put right" in out
    listed = called("good")
    assert listed.startswith("- Tea towel, 100 % polyester: Last came out well on")
    assert ("200 °C" in listed) or ("60 s" in listed)


def test_nothing_is_noted_where_the_case_is_not_kept() -> None:
    play(["diagnose", "--no-case"], [*OPENED, "set 200C, 60 seconds", "y", "t", "1"], somebody=True)
    assert called("good").startswith("No good piece is noted")


def test_a_cause_of_the_last_cases_counts_likelier_on_the_next() -> None:
    def cold() -> tuple[float, list[str]]:
        whole = json.loads(play(["diagnose", "--item", "mouse mat", "--saw", "one-side-pale", "--json"])[1])
        chance = {each["id"]: each["present"] for each in whole["causes"]}["cold-zone"]
        return chance, [each["cause"] for each in whole["found_lately"]]

    before, nothing = cold()
    solved = ["cases", "add", "--item", "tea towel", "--saw", "cold-corners", "--answer", "map-the-platen=place-cooler"]
    called(*solved, "--cured-by", "have-the-platen-repaired")
    after, found = cold()
    assert (nothing, found) == ([], ["cold-zone"])
    assert after > 1.5 * before
    assert report("--no-recall")["found_lately"] == []


def test_a_list_that_is_spoilt_keeps_no_dialogue_from_going_on(tmp_path: Path) -> None:
    called(*GOOD)
    (tmp_path / "data" / "presslore" / FILE).write_text("{}")
    assert report()["last_good"] is None
    code, _, err = play(["good"])
    assert code == exits.PROBLEMS
    assert "Traceback" not in err


@pytest.mark.parametrize(
    ("args", "code", "why"),
    [
        (["good", "tea towel"], exits.USAGE, "say what it was set to"),
        (["good", "tea towel", "--used", "cheese=blue"], exits.USAGE, "expected one of paper, ink, blanks, sundries"),
        (["good", "tea towel", "--used", "paper="], exits.USAGE, "expected one of paper"),
        (["good", "tea towel", "--set", "200C", "--on", "2999-01-01"], exits.USAGE, "expected a day that has been"),
        (["good", "tea towel", "--set", "200C", "--press", "left"], exits.USAGE, "no shop.yaml names presses"),
        (["good", "cotton t-shirt", "--set", "200C"], exits.PROBLEMS, "Cotton has no place"),
        (["good", "zxcvbn", "--set", "200C"], exits.NOT_UNDERSTOOD, "No item goes by"),
        (["diagnose", "--saw", "pale", "--used", "cheese=blue"], exits.USAGE, "expected one of paper"),
    ],
)
def test_what_cannot_be_noted_is_refused(args: list[str], code: int, why: str) -> None:
    found, out, err = play(args)
    assert found == code
    assert why.lower() in flat(out + err).lower()
