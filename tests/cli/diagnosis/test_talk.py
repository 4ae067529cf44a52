"""The dialogue: what may be typed at each prompt, and that leaving in any way loses nothing."""

import itertools
import json
import os
import re
from pathlib import Path
from typing import Any

import pytest

from diagnose.cli import exits
from tests.cli.playing import CTRL_C, play

SAW_TWO = ["65/35 polyester cotton tea towel", "pale and doubled", "y"]
AT_A_FIX = [*SAW_TWO, "u"]  # the first fix cannot be done, and another comes
AT_A_CHECK = ["cushion cover", "the whole print came out washed out", "y"]
TYPED = [*SAW_TWO, "u", "?", "w", "3", "?", "w", "u", "b", "?", "b", "2", "n", "b", "4", "shiny", "w"]
KEPT = Path("state", "presslore", "sessions", "tea-towel-65-35-faint-colour.json")


def talk(*typed: str, flags: tuple[str, ...] = ()) -> tuple[int, str]:
    code, out, err = play(["diagnose", *flags], typed, somebody=True)
    assert "Traceback" not in out + err
    return code, out + err


@pytest.mark.parametrize("length", range(len(TYPED)))
@pytest.mark.parametrize("last", [CTRL_C, None], ids=["Ctrl-C", "end of input"])
def test_stopping_at_any_prompt_keeps_what_was_said(length: int, last: str | None, tmp_path: Path) -> None:
    typed = [*TYPED[:length], *([last] if last else [])]
    code, shown = talk(*typed)
    assert code == exits.STOPPED
    assert shown.endswith("Stopped. Nothing is left half done.\n")
    file = tmp_path / KEPT
    assert file.exists() == (length >= len(SAW_TWO)) == ("presslore diagnose --resume" in shown)
    if file.exists():
        assert json.loads(file.read_text(encoding="utf-8"))["moves"]
        assert [each.name for each in file.parent.iterdir()] == [file.name]
        code, resumed = talk("s", flags=("--resume",))
        assert code == exits.GOOD
        assert "Tea towel, 65/35 polyester and cotton" in resumed


def test_a_resumed_dialogue_asks_what_was_asked_last() -> None:
    _, first = talk(*SAW_TWO, "u", "u", "s")
    _, again = talk("s", flags=("--resume",))
    rule = again.splitlines()[0]
    # a caution is read out whole again: a new day, a new reader
    assert again.splitlines()[1:4] == first.split(rule)[-1].splitlines()[1:4]


def test_a_named_file_is_kept_and_told(tmp_path: Path) -> None:
    code, shown = talk(*AT_A_FIX, "s", flags=("--save", "the towels.json"))
    assert code == exits.GOOD
    assert shown.endswith("presslore diagnose --resume 'the towels.json'\n")
    assert not (tmp_path / KEPT).exists()
    talk("t", "u", "s", flags=("--resume", "the towels.json"))
    assert json.loads(Path("the towels.json").read_text(encoding="utf-8"))["moves"][-1]["move"] == "cannot-do"


def test_where_nothing_can_be_kept_the_dialogue_goes_on_and_says_so_once() -> None:
    Path("file").write_text("", encoding="utf-8")
    code, shown = talk(*SAW_TWO, "u", "u", "s", flags=("--save", "file/towels.json"))
    assert code == exits.GOOD
    assert shown.count("This session is not being kept") == 1
    assert "--resume" not in shown


def test_back_undoes_one_step_and_at_last_opens_the_first_question() -> None:
    _, shown = talk(*SAW_TWO, "u", "u", "b", "b", "b", "b", "ceramic tile", "doubled letters", "y", "s")
    assert shown.count("What do you see?") == 3
    assert shown.count("What was pressed?") == 2
    assert "Ceramic tile, coated · Ghosting" in shown


def test_back_takes_a_result_and_what_was_seen_with_it_together(tmp_path: Path) -> None:
    talk(*AT_A_FIX, "4", "shiny", "b", "s")
    moves = json.loads((tmp_path / KEPT).read_text(encoding="utf-8"))["moves"]
    assert [move["move"] for move in moves] == ["pressed", "saw", "saw", "cannot-do"]


@pytest.mark.parametrize(
    "typed", ["0", "9", "-1", "1.5", "10000000000000000000000", "", " ", "zxcvbn", "é", "\x00", "1 2"]
)
def test_nonsense_is_met_with_what_may_be_typed(typed: str) -> None:
    code, shown = talk(*SAW_TWO, typed, "s")
    assert code == exits.GOOD
    assert "Type a number from 1 to" in shown or "I do not know which of these that is." in shown


@pytest.mark.parametrize(("typed", "move"), [("no change", "same"), ("Better", "better"), ("it is", ""), ("3", "same")])
def test_a_result_may_be_told_in_words(typed: str, move: str, tmp_path: Path) -> None:
    talk(*AT_A_FIX, typed, "n", "s")
    last = json.loads((tmp_path / KEPT).read_text(encoding="utf-8"))["moves"][-1]
    assert last.get("change", "") == move


def test_an_outcome_told_in_words_is_confirmed_unless_it_is_its_own_name(tmp_path: Path) -> None:
    flags = ("--item", "mug", "--saw", "colour-cast")
    _, shown = talk("s", flags=flags)
    outcomes = [line.split(" ", 3)[3] for line in shown.splitlines() if line.startswith("  ") and line[2].isdigit()]
    assert outcomes, "expected a check first"
    talk(outcomes[-1], "s", flags=(*flags, "--save", "kept.json"))
    kept = json.loads(Path("kept.json").read_text(encoding="utf-8"))["moves"]
    assert kept[-1]["move"] == "answered"


def test_all_of_several_faults_gone_is_a_cure() -> None:
    code, shown = talk(*AT_A_FIX, "2", "it is all gone")
    assert code == exits.GOOD
    assert "Done. Put right: Faint colour · Ghosting." in shown


def test_one_of_several_faults_gone_leaves_the_other() -> None:
    _, shown = talk(*AT_A_FIX, "2", "what", "1", "s")
    assert shown.count("What is left, exactly?\n  1 Faint colour\n  2 Ghosting\n") == 2
    assert "Tea towel, 65/35 polyester and cotton · Faint colour\n" in shown


@pytest.mark.parametrize(
    ("typed", "gone", "then"),
    [
        (("",), [], []),
        (("n",), [], []),
        (("1 2",), [], []),
        (("only the ghosting", "y"), ["faint-colour"], []),
        (("the faint colour has gone but there are creases now", "y"), ["faint-colour"], ["creases"]),
        (("there is a crease", "y"), ["faint-colour", "ghosting"], ["creases"]),
        (("there is a crease", "1", "y"), [], ["creases"]),
        (("still pale and ghosting",), [], []),
    ],
)
def test_what_is_left_after_a_fix_is_told_in_words(typed: tuple[str, ...], gone: list[str], then: list[str]) -> None:
    talk(*AT_A_FIX, "2", *typed, "s")
    at = next(number for number, move in enumerate(kept_moves()) if move["move"] == "tried")
    tried, *more = kept_moves()[at:]
    assert (tried["change"], tried.get("gone", [])) == ("better", gone)
    assert [each["defects"] for each in more] == ([then] if then else [])


def test_what_is_left_brings_a_second_cause_up() -> None:
    """The creases are laid to what outlived the fix, and asked about next."""
    _, shown = talk(*AT_A_FIX, "2", "there is a crease", "y", "w", "s")
    believed = shown.split("> y\n")[-1]
    assert "Tea towel, 65/35 polyester and cotton · Creases\n" in believed
    assert "Creases" in believed.split("> w\n")[1].split("\n2 ")[0]


def test_where_one_fault_was_seen_what_is_left_is_asked_without_a_list() -> None:
    talk("mug", "ghosting", "y", "just tell me what to try", "2", "", "s")
    assert kept_moves()[-1] == {"move": "tried", "fix": kept_moves()[-1]["fix"], "change": "better", "gone": []}
    code, shown = talk("mug", "ghosting", "y", "just tell me what to try", "2", "zxcvbn", "the ghosting is gone", "s")
    assert (code, shown.count("What is left, exactly?\nYour own words")) == (exits.GOOD, 2)
    assert "Done. Put right: Ghosting." in shown


@pytest.mark.parametrize("said", ["asdf", "n"])
def test_something_else_that_is_nothing_leaves_all_as_it_was(said: str) -> None:
    _, shown = talk(*AT_A_FIX, "4", said, "s")
    assert (
        shown.split("What shows now?")[1].count("Tea towel, 65/35 polyester and cotton · Faint colour · Ghosting\n")
        == 1
    )


def test_cautions_stand_before_their_step_and_whole_below_it_only_once() -> None:
    _, shown = talk(*SAW_TWO, "!", "u", "?", "s")
    for card in shown.split("Fix · ")[1:]:
        first_step = card.index("  1. ")
        assert "! The platen burns at a touch" in card[:first_step]
        assert "Keep hands" not in card[:first_step]
    assert shown.count("! The platen burns at a touch. Keep hands") == 1


def test_cautions_told_in_brief_stand_whole_behind_the_question_mark() -> None:
    _, shown = talk("polyester t-shirt", "there is a rectangle pressed into the shirt", "y", "?", "s")
    card = shown.split("Fix · ")[1]
    assert card.index("! The platen burns at a touch  ") < card.index("  1. ")
    assert card.index("  1. ") < card.index("! The platen burns at a touch. Keep hands")


def test_whatever_is_typed_the_dialogue_goes_on_or_ends_well() -> None:
    keys = ("1", "2", "3", "4", "u", "b", "w", "?", "n", "y", "d", "l", "", "words", "99")
    for turn, first in list(enumerate(keys))[::4]:
        typed = itertools.islice(itertools.cycle((*keys[turn:], *keys[:turn])), 25)
        code, shown = talk("mug", "pale and doubled", "y", first, *typed)
        assert code in (exits.GOOD, exits.STOPPED), shown


# --- words at every prompt ---


def kept_moves() -> list[dict[str, Any]]:
    folder = Path(os.environ["XDG_STATE_HOME"], "presslore", "sessions")
    file = max(folder.iterdir(), key=lambda file: file.stat().st_mtime_ns)
    found: list[dict[str, Any]] = json.loads(file.read_text(encoding="utf-8"))["moves"]
    return found


@pytest.mark.parametrize("words", ["I don't know", "no idea", "can't tell", "dunno", "not sure"])
def test_not_knowing_may_be_said_in_words(words: str) -> None:
    talk(*AT_A_CHECK, words, "s")
    assert kept_moves()[-1]["move"] == "cannot-tell"


@pytest.mark.parametrize("words", ["stop", "quit", "enough", "I have to go"])
@pytest.mark.parametrize("before", [AT_A_CHECK, AT_A_FIX])
def test_stopping_may_be_said_in_words(words: str, before: list[str]) -> None:
    code, shown = talk(*before, words)
    assert code == exits.GOOD
    assert "Saved. Go on with:" in shown


@pytest.mark.parametrize("words", ["just tell me what to try", "skip the questions", "what should I do"])
def test_whoever_wants_a_fix_gets_the_likeliest_one_and_may_go_back_to_the_question(words: str) -> None:
    _, shown = talk(*AT_A_CHECK, words, "b", "s")
    asked = shown.split(words)[1]
    assert "Fix · " in asked.split("How is the test piece?")[0]
    question = shown.split(words)[0].split("\n? why")[-2].splitlines()[-3:]
    assert all(line in asked for line in question)


def test_a_new_symptom_at_a_later_prompt_is_taken_once_it_is_confirmed() -> None:
    _, _shown = talk(*SAW_TWO, "also there are creases in it", "y", "s")
    assert kept_moves()[-1] == {"move": "saw", "defects": ["creases"]}
    talk(*SAW_TWO, "also there are creases in it", "n", "s")
    assert all("creases" not in move.get("defects", ()) for move in kept_moves())


def test_a_figure_at_any_prompt_closes_its_reading() -> None:
    talk(*SAW_TWO, "385F for 60 s", "y", "s")
    assert {name: round(value) for move in kept_moves() for name, value in move.get("figures", {}).items()} == {
        "set": 196,
        "dwell": 60,
    }


def test_a_figure_is_no_answer_to_what_another_check_asks() -> None:
    _, shown = talk(*AT_A_CHECK, "60 seconds", "y", "s")
    after = shown.split("> 60 seconds\n")[1]
    assert after.startswith("Noted, so far:\n 1 The time on the press's clock: 60 s\n")
    assert {name: value for move in kept_moves() for name, value in move.get("figures", {}).items()} == {"dwell": 60}


def test_another_item_at_a_later_prompt_takes_the_place_of_the_first() -> None:
    _, shown = talk(*SAW_TWO, "no, it's a ceramic tile, not a towel", "y", "s")
    assert [move["item"] for move in kept_moves() if move["move"] == "pressed"] == ["ceramic-tile"]
    assert "Ceramic tile, coated · Faint colour · Ghosting\n" in shown


def test_a_defect_taken_back_at_a_later_prompt_is_no_longer_seen() -> None:
    _, shown = talk(*SAW_TWO, "no ghosting after all", "y", "s")
    assert "Tea towel, 65/35 polyester and cotton · Faint colour\n" in shown
    assert {"move": "did-not-see", "defects": ["ghosting"]} in kept_moves()


def test_back_takes_all_back_that_was_said_at_one_prompt() -> None:
    _, _shown = talk(*SAW_TWO, "385F for 60 s", "y", "b", "s")
    assert all(move["move"] != "measured" for move in kept_moves())


def test_words_that_fit_no_choice_are_not_forced_onto_one() -> None:
    _, shown = talk("fleece blanket", "it came out washed out", "y", "zxcvbn", "s")
    after = shown.split("> zxcvbn\n")[1]
    assert after.startswith("I do not know which of these that is.\n  1 ")
    assert [move["move"] for move in kept_moves()] == ["pressed", "saw"]


def test_what_was_said_already_is_said_to_be_so() -> None:
    _, shown = talk(*SAW_TWO, "ghosting", "s")
    assert "I have that already: Ghosting" in shown or "Do you mean" in shown


@pytest.mark.parametrize(
    ("words", "change"),
    [("it didn't help", "same"), ("slightly better", "better"), ("still the same", "same")],
)
def test_a_result_may_be_told_as_people_say_it(words: str, change: str) -> None:
    talk(*AT_A_FIX, words, "n", "s")
    assert kept_moves()[-1]["change"] == change


def test_one_fault_gone_and_one_left_may_be_told_in_one_breath() -> None:
    talk(*AT_A_FIX, "the ghosting is gone but it is still pale", "y", "s")
    tried = kept_moves()[-1]
    assert (tried["move"], tried["change"], tried["gone"]) == ("tried", "better", ["ghosting"])


def test_all_that_was_seen_gone_is_a_cure() -> None:
    code, shown = talk("mug", "ghosting", "y", "just tell me what to try", "the ghosting has gone")
    assert code == exits.GOOD
    assert "Done. Put right: Ghosting." in shown


def test_something_new_in_place_of_a_result_counts_as_tried() -> None:
    talk(*AT_A_FIX, "now there are creases in it", "y", "s")
    assert [move["move"] for move in kept_moves()][-2:] == ["tried", "saw"]


def test_a_named_defect_closes_the_check_that_only_asks_for_it_again() -> None:
    edges = "How do the edges of lettering and lines look under a magnifier?"
    answers = ["u"] * 25
    _, shown = talk("65/35 polyester cotton tea towel", "blurred edges", "y", *answers, "s")
    assert edges in shown
    _, shown = talk("65/35 polyester cotton tea towel", "ghosting", "y", *answers, "s")
    assert edges not in shown


def test_after_three_that_cannot_be_told_a_way_out_is_offered() -> None:
    """Hard goods with two questions in a row before any fix would do as well: ``u`` at fixes breaks the row."""
    flags = ("--item", "mug", "--saw", "faint-colour")
    _, shown = talk("u", "u", "c", "b", "u", "c", "d", flags=flags)
    before, after = shown.split("That is 3 in a row that cannot be told.")
    assert before.count("? why and how") >= 3
    assert "Handed over." in after


def test_the_hand_over_says_what_could_not_be_told_or_done() -> None:
    _, shown = talk("u", "c", "d", flags=("--item", "mug", "--saw", "faint-colour"))
    assert re.search(r"^- .+: could not be told$", shown, flags=re.MULTILINE)


def test_one_cause_is_held_against_another_by_its_number() -> None:
    _, shown = talk(*SAW_TWO, "w", "why 1 rather than 2?", "1 rather than 40", "s")
    assert re.search(r"\(\d+ %\) or .+ \(\d+ %\):", " ".join(shown.split()))
    assert "Only the causes that w lists" in shown


def test_after_two_fixes_in_vain_what_was_seen_is_put_right_at_the_next_step() -> None:
    seen = (
        "--item",
        "tea-towel-polyester",
        "--saw",
        "ghosting",
        "--tried",
        "tape-two-edges",
        "--tried",
        "peel-in-one-stroke",
    )
    _, shown = talk("no ghosting, it has creases", "2", "s", flags=seen)
    assert "2 fixes have changed nothing. Look at the piece afresh: is it really this: Ghosting?" in " ".join(
        shown.split()
    )
    moves = kept_moves()
    assert [move["move"] for move in moves].count("tried") == 2
    assert {"move": "did-not-see", "defects": ["ghosting"]} in moves
    assert {"move": "saw", "defects": ["creases"]} in moves
