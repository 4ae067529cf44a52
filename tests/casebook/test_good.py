"""The file of good pressings: what is noted is read back, the last one counts, and nothing else is taken for it."""

import json
from pathlib import Path

import pytest

from diagnose.casebook.good import FILE, GoodPressing, last_good, note, noted
from diagnose.dialogue.moves import LastGood
from diagnose.problems import PressloreError

GREEN = LastGood("2026-11-12", {"set": 200.0, "dwell": 60.0}, {"paper": "the green box"})
LATER = LastGood("2026-11-20", {"set": 198.0})


def test_what_is_noted_is_read_back(tmp_path: Path) -> None:
    file = tmp_path / FILE
    assert noted(file) == ()
    note(file, GoodPressing(item="mug", press="left", good=GREEN))
    note(file, GoodPressing(item="slate", good=LATER))
    assert noted(file) == (
        GoodPressing(item="mug", press="left", good=GREEN),
        GoodPressing(item="slate", press="", good=LATER),
    )


def test_the_last_of_an_item_on_a_press_takes_the_place_of_the_one_before(tmp_path: Path) -> None:
    file = tmp_path / FILE
    for press, good in (("left", GREEN), ("right", GREEN), ("left", LATER)):
        note(file, GoodPressing(item="mug", press=press, good=good))
    found = noted(file)
    assert len(found) == 2
    assert last_good(found, "mug", "left") == LATER
    assert last_good(found, "mug", "right") == GREEN
    assert last_good(found, "mug", "") is None
    assert last_good(found, "slate", "left") is None


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"format": "presslore-case"}, "not a list of good pressings"),
        ({"version": 99}, "newer presslore"),
        ({"good": [{}]}, "damaged"),
        ({"good": 7}, "damaged"),
        ({"good": [{"item": "mug", "press": "", "on": "x", "figures": {"set": 9e9}, "used": {}}]}, "damaged"),
        ({"good": [{"item": "mug", "press": "", "on": "x", "figures": {}, "used": {"cheese": "blue"}}]}, "damaged"),
        ({"good": [{"item": "mug\u001b", "press": "", "on": "x", "figures": {}, "used": {}}]}, "damaged"),
    ],
)
def test_what_is_no_such_list_is_refused_and_left_alone(tmp_path: Path, change: dict[str, object], why: str) -> None:
    file = tmp_path / FILE
    note(file, GoodPressing(item="mug", good=GREEN))
    spoilt = json.dumps({**json.loads(file.read_text()), **change})
    file.write_text(spoilt)
    with pytest.raises(PressloreError, match=why):
        noted(file)
    with pytest.raises(PressloreError, match=why):
        note(file, GoodPressing(item="slate", good=LATER))
    assert file.read_text() == spoilt


def test_an_earlier_one_does_not_take_the_place_of_a_later(tmp_path: Path) -> None:
    file = tmp_path / FILE
    note(file, GoodPressing(item="mug", good=LATER))
    with pytest.raises(PressloreError, match="a later good one is noted already, of 2026-11-20"):
        note(file, GoodPressing(item="mug", good=GREEN))
    assert last_good(noted(file), "mug", "") == LATER
