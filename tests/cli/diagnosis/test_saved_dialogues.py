"""Dialogues that were left: each has a file of its own until its case is kept; none is lost, and none is kept twice."""

import json
import multiprocessing
import os
import signal
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any
from unittest import mock

import pytest

from diagnose.casebook.case import Case
from diagnose.casebook.store.casebook import open_book
from diagnose.characters import stripped
from diagnose.cli import exits
from diagnose.cli.diagnosis import ending
from diagnose.cli.diagnosis.kept_session import Beginning, KeptSession
from diagnose.cli.terminal.screen import Screen, screen_for
from diagnose.dialogue.moves import Cured, Pressed, Saw
from diagnose.dialogue.saving import Progress, read_saved, to_json
from diagnose.dialogue.session import Session
from diagnose.dialogue.waiting import EARLIER, EARLIER_FILE, FOLDER, MANY, begin
from tests.cli.playing import CTRL_C, play

SHIRT = ("polyester t-shirt", "there is a rectangle pressed into the shirt", "y")
MUG = ("mug", "ghosting", "y")
HELPS, CURES = ("2", ""), "1"  # better, and what is left is the same as before
BOOK = ("--book", "book.sqlite3")
KEPT = "Kept in the casebook."


def diagnose(*args: str, typed: tuple[str, ...] = (), somebody: bool = True) -> tuple[int, str]:
    code, out, err = play(["diagnose", *args], typed, somebody=somebody)
    assert "Traceback" not in out + err
    return code, out + err


@pytest.fixture
def state(tmp_path: Path) -> Path:
    return tmp_path / "state" / "presslore"


def names(state: Path) -> list[str]:
    folder = state / FOLDER
    return sorted(os.listdir(folder)) if folder.exists() else []


def kept() -> list[Case]:
    if not Path("book.sqlite3").exists():
        return []
    with open_book("book.sqlite3") as book:
        return list(book.cases())


# --- two presses, two spoiled pieces ---


def test_each_dialogue_has_a_file_of_its_own(state: Path) -> None:
    _, one = diagnose(typed=(*SHIRT, "s"))
    _, other = diagnose(typed=(*MUG, CTRL_C))
    assert names(state) == ["mug-ghosting.json", "t-shirt-polyester-press-box.json"]
    assert one.endswith("Saved. Go on with:\n  presslore diagnose --resume t-shirt-polyester-press-box\n")
    assert "presslore diagnose --resume mug-ghosting\n" in other
    _, again = diagnose("--resume", "t-shirt-polyester-press-box", typed=("s",))
    assert "Press box" in again.splitlines()[1]
    _, again = diagnose("--resume", "mug-ghosting", typed=("s",))
    assert "Ghosting" in again.splitlines()[1]


def test_of_several_one_is_chosen(state: Path) -> None:
    diagnose(typed=(*SHIRT, "s"))
    old = state / FOLDER / "t-shirt-polyester-press-box.json"
    os.utime(old, (1_790_000_000, 1_790_000_000))
    diagnose(typed=(*MUG, "s"))
    _, shown = diagnose("--resume", typed=("2", "s"))
    head, _, rest = shown.partition("> ")
    words = " ".join(head.split())
    assert words.index("coated: Ghosting [mug-ghosting]") < words.index("2026-09-21")
    assert "[t-shirt-polyester-press-box]" in words
    assert "Press box" in rest.splitlines()[2]
    assert "Ghosting" in diagnose("--resume", typed=("nonsense", "mug-ghosting", "s"))[1].rpartition("> mug")[2]
    assert "Which one" not in diagnose("--resume", "last", typed=("s",))[1]
    for leaving in (("n",), (CTRL_C,), ()):
        assert diagnose("--resume", typed=leaving)[0] == exits.STOPPED
    assert len(names(state)) == 2


def test_without_a_terminal_they_are_listed_with_how_to_choose() -> None:
    diagnose(typed=(*SHIRT, "s"))
    diagnose(typed=(*MUG, "s"))
    for flags in ((), ("--json",)):
        code, out, err = play(["diagnose", "--resume", *flags])
        assert (code, out) == (exits.PROBLEMS, "")
        assert "presslore diagnose --resume NAME" in err
        assert "mug-ghosting: 20" in err
        assert "t-shirt-polyester-press-box: 20" in err
    code, out, _ = play(["diagnose", "--resume", "mug-ghosting", "--json"])
    assert (code, json.loads(out)["understood"]["item"]["id"]) == (exits.GOOD, "mug")


def test_the_only_one_is_gone_on_with_at_once() -> None:
    diagnose(typed=(*MUG, "s"))
    _, shown = diagnose("--resume", typed=("s",))
    assert "Which one" not in shown
    assert "Ghosting" in shown


def test_a_name_that_is_none_is_said(state: Path) -> None:
    diagnose(typed=(*MUG, "s"))
    for name in ("mug", "../last", "nowhere.json", "m" * 300, "\0", "\udce9"):
        code, shown = diagnose("--resume", name)
        assert code == exits.PROBLEMS
        assert diagnose("--discard", name)[0] == exits.PROBLEMS
        assert f"{stripped(name)}: no saved dialogue has this name, and there is no such file" in " ".join(
            shown.split()
        )


def test_one_is_deleted_by_name_or_in_the_list(state: Path) -> None:
    for _ in range(4):
        diagnose(typed=(*MUG, "s"))
    code, shown = diagnose("--discard", "mug-ghosting-2", "--discard", "mug")
    assert (code, len(names(state))) == (exits.PROBLEMS, 4)
    assert "mug: no saved dialogue has this name" in shown
    assert diagnose("--discard", "mug-ghosting-2") == (exits.GOOD, "Deleted: mug-ghosting-2.\n")
    code, shown = diagnose("--resume", typed=("d", "n", "d", "mug-ghosting-3", "mug-ghosting", "s"))
    assert code == exits.GOOD
    assert "Nothing was deleted." in shown
    assert "Deleted: mug-ghosting-3." in shown
    assert names(state) == ["mug-ghosting-4.json", "mug-ghosting.json"]
    (state / "cases").mkdir()
    (state / "cases" / "a.json").write_text("{}", encoding="ascii")
    assert diagnose("--discard", "../cases/a")[0] == exits.PROBLEMS
    assert (state / "cases" / "a.json").exists()


def test_a_damaged_file_is_named_and_the_others_are_offered(state: Path) -> None:
    diagnose(typed=(*MUG, "s"))
    (state / FOLDER / "broken.json").write_bytes(b"{")
    _, shown = diagnose("--resume", typed=("s",))
    words = " ".join(shown.split())
    assert f"Left out: {state / FOLDER / 'broken.json'}:1:2: the saved session is damaged" in words
    assert "Ghosting" in words
    diagnose("--discard", "mug-ghosting")
    code, shown = diagnose("--resume")
    assert code == exits.PROBLEMS
    assert "no session was left" in shown
    assert names(state) == ["broken.json"]


def test_none_goes_by_itself_and_many_are_told_of(state: Path) -> None:
    session = Session((Pressed("mug"), Saw(("ghosting",))))
    for number in range(MANY):
        begin(state, session, to_json(session, "v", Progress(case=f"{number:032x}")).encode())
    _, shown = diagnose(typed=(*SHIRT, "s"))
    assert f"{MANY} dialogues are saved. To see them, and delete what is done with" in " ".join(shown.split())
    assert len(names(state)) == MANY + 1
    diagnose("--discard", "mug-ghosting-7", "--discard", "mug-ghosting-8")
    assert "dialogues are saved" not in diagnose(typed=(*SHIRT, "s"))[1]


# --- what an older presslore left ---


def test_an_older_session_is_gone_on_with_and_goes_once_it_is_kept(state: Path) -> None:
    state.mkdir(parents=True)
    diagnose("--save", "left.json", typed=(*SHIRT, "s"))
    old = json.loads(Path("left.json").read_text(encoding="utf-8"))
    del old["progress"]
    (state / EARLIER_FILE).write_text(json.dumps(old, indent=1), encoding="utf-8")
    _, shown = diagnose("--resume", *BOOK, typed=(*HELPS, "s"))
    assert f"presslore diagnose --resume {EARLIER}\n" in shown
    _, shown = diagnose("--resume", EARLIER, *BOOK, typed=(CURES,))
    assert KEPT in shown
    assert len(kept()) == 1
    assert not (state / EARLIER_FILE).exists()
    assert diagnose("--resume")[0] == exits.PROBLEMS


# --- the case is kept once, whatever happens ---


def test_a_dialogue_that_is_kept_goes(state: Path) -> None:
    for more in ((), ("--no-case",)):
        diagnose(*BOOK, "--no-recall", *more, typed=(*SHIRT, *HELPS, CURES))
        assert names(state) == []
    assert len(kept()) == 1
    assert diagnose("--resume")[0] == exits.PROBLEMS


def test_a_file_that_was_named_stays_and_knows_that_its_case_is_kept() -> None:
    diagnose(*BOOK, "--save", "shirt.json", typed=(*SHIRT, *HELPS, CURES))
    saved = read_saved(Path("shirt.json"))
    assert saved.progress is not None
    assert saved.progress.kept
    assert [case.id for case in kept()] == [saved.progress.case]
    _, shown = diagnose(*BOOK, "--resume", "shirt.json")
    assert ("Done. Put right" in shown, KEPT in shown, len(kept())) == (True, False, 1)


def stopped(after: bool) -> Callable[..., None]:
    """Keeping a case while Ctrl-C is pressed, before or after the casebook has it."""
    add = ending._add

    def adding(case: Case, where: str) -> None:
        if after:
            add(case, where)
        raise KeyboardInterrupt

    return adding


@pytest.mark.parametrize("after", [False, True])
def test_ctrl_c_while_the_case_is_being_kept_neither_loses_it_nor_keeps_it_twice(after: bool, state: Path) -> None:
    with mock.patch.object(ending, "_add", stopped(after)):
        code, shown = diagnose(*BOOK, typed=(*SHIRT, *HELPS, CURES))
    assert code == exits.STOPPED
    assert "Saved. Go on with:\n  presslore diagnose --resume t-shirt-polyester-press-box\n" in shown
    assert len(kept()) == after
    first = kept()
    _, shown = diagnose("--resume", *BOOK)
    assert KEPT in shown
    assert kept()[: len(first)] == first
    assert len(kept()) == 1
    assert names(state) == []


def _killed(point: str, typed: tuple[str, ...]) -> None:
    """A dialogue in a process that dies at a point: while the case is added, after it, or as its file is to go."""

    def die(*_: Any) -> None:
        os.kill(os.getpid(), signal.SIGKILL)

    add = ending._add

    def added(case: Case, where: str) -> None:
        add(case, where)
        die()

    patches: dict[str, AbstractContextManager[Any]] = {
        "before": mock.patch.object(ending, "_add", die),
        "after": mock.patch.object(ending, "_add", added),
        "going": mock.patch.object(KeptSession, "case_is_kept", die),
    }
    with patches[point]:
        play(["diagnose", *BOOK], typed, somebody=True)


@pytest.mark.parametrize("point", ["before", "after", "going"])
def test_a_kill_at_the_end_neither_loses_the_case_nor_keeps_it_twice(point: str, state: Path) -> None:
    process = multiprocessing.get_context("fork").Process(target=_killed, args=(point, (*SHIRT, *HELPS, CURES)))
    process.start()
    process.join(120)
    assert process.exitcode == -signal.SIGKILL
    assert len(kept()) == (point != "before")
    assert names(state) == ["t-shirt-polyester-press-box.json"]
    _, shown = diagnose("--resume", *BOOK)
    assert ("Done. Put right" in shown, KEPT in shown) == (True, True)
    assert (len(kept()), names(state)) == (1, [])


def test_a_case_that_is_kept_late_has_its_own_time_and_minutes(state: Path) -> None:
    diagnose("--save", "shirt.json", *BOOK, "--no-case", typed=(*SHIRT, *HELPS, CURES))
    saved = read_saved(Path("shirt.json"))
    fix = saved.session.over.fix if isinstance(saved.session.over, Cured) else ""
    told = Progress(case="0" * 32, minutes=12.0, took={fix: 4.5, "never-done": 2.0}, ended=1_790_000_000.9)
    begin(state, saved.session, to_json(saved.session, "v", told).encode())
    assert KEPT in diagnose("--resume", *BOOK)[1]
    (case,) = kept()
    assert (case.id, case.took, int(case.ended.timestamp())) == ("0" * 32, {fix: 4.5}, 1_790_000_000)
    assert case.minutes == pytest.approx(12.0, abs=0.5)


def test_where_neither_casebook_nor_file_takes_the_case_the_dialogue_waits(state: Path) -> None:
    state.mkdir(parents=True)
    (state / "cases").write_text("", encoding="ascii")
    _, shown = diagnose("--book", "no/such/folder/book.sqlite3", typed=(*SHIRT, *HELPS, CURES))
    assert "could not be saved as a file either" in " ".join(shown.split())
    assert "presslore diagnose --resume t-shirt-polyester-press-box\n" in shown
    assert KEPT in diagnose("--resume", *BOOK)[1]
    assert (len(kept()), names(state)) == (1, [])


def test_a_case_set_aside_twice_is_one_file(state: Path) -> None:
    with mock.patch.object(KeptSession, "case_is_kept"):
        diagnose("--book", "no/such/book", typed=(*SHIRT, *HELPS, CURES))
    _, shown = diagnose("--book", "no/such/book", "--resume")
    assert "It is saved as a file." in shown
    assert (len(os.listdir(state / "cases")), names(state)) == (1, [])


def test_a_dialogue_that_goes_on_after_its_end_is_another_case() -> None:
    diagnose(*BOOK, "--save", "shirt.json", typed=(*SHIRT, *HELPS, CURES))
    _, shown = diagnose(*BOOK, "--resume", "shirt.json", "--tried", "tape-two-edges", typed=("s",))
    assert "Saved. Go on with" in shown
    progress = read_saved(Path("shirt.json")).progress
    assert progress is not None
    assert (progress.case in {case.id for case in kept()}, progress.kept, progress.ended) == (False, False, None)


def test_a_copy_becomes_a_case_of_its_own(state: Path) -> None:
    diagnose(*BOOK, typed=(*SHIRT, "s"))
    diagnose(*BOOK, "--resume", "--save", "copy.json", typed=(*HELPS, CURES))
    assert KEPT in diagnose(*BOOK, "--resume", typed=(*HELPS, CURES))[1]
    assert len(kept()) == 2


# --- the same dialogue at two screens ---


def test_two_who_go_on_with_one_dialogue_part(state: Path) -> None:
    session = Session((Pressed("mug"), Saw(("ghosting",))))
    path = begin(state, session, to_json(session, "v", Progress(case="0" * 32)).encode())
    beginnings = [Beginning(path=path, saved=read_saved(path)) for _ in range(2)]
    one, other = (KeptSession(_screen(), beginning, "v", None, session) for beginning in beginnings)
    one(session.make(Cured("peel")))
    other(session.make(Saw(("pale",))))
    other(session.make(Saw(("banding",))))
    one(session.make(Cured("press")))
    assert names(state) == ["mug-ghosting-2.json", "mug-ghosting.json"]
    assert read_saved(path).session == session.make(Cured("press"))
    second = read_saved(state / FOLDER / "mug-ghosting-2.json")
    assert second.session == session.make(Saw(("banding",)))
    assert second.progress is not None
    assert second.progress.case != "0" * 32


def _screen() -> Screen:
    return screen_for(None)
