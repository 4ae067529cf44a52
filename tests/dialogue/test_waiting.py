"""Saved dialogues in their folder: each has a file and a name of its own, and none takes another's place."""

import json
import multiprocessing
import os
import time
from pathlib import Path

from diagnose.dialogue.moves import Cured, Pressed, Saw
from diagnose.dialogue.saving import SAVED, Progress, read_saved, to_json
from diagnose.dialogue.session import Session
from diagnose.dialogue.waiting import EARLIER, EARLIER_FILE, FOLDER, LONGEST_NAME, all_waiting, begin, how_many, name_of

MUG = Session((Pressed("mug"), Saw(("ghosting", "pale"))))
OVER = MUG.make(Cured("peel"))
CASE = "0" * 31 + "1"


def content(session: Session, progress: Progress | None = None) -> bytes:
    return to_json(session, "v", progress).encode()


def test_a_name_says_what_it_is_about_and_is_never_taken_twice(tmp_path: Path) -> None:
    made = [begin(tmp_path, session, content(session)) for session in (MUG, MUG, Session((Saw(("pale",)),)), Session())]
    assert [path.name for path in made] == ["mug-ghosting.json", "mug-ghosting-2.json", "piece-pale.json", "piece.json"]
    assert [name_of(tmp_path, path) for path in made] == ["mug-ghosting", "mug-ghosting-2", "piece-pale", "piece"]
    assert name_of(tmp_path, tmp_path / "elsewhere.json") == ""
    long = begin(tmp_path, Session((Pressed("m" * 80),)), b"")
    assert len(long.name) <= LONGEST_NAME + len(".json")
    assert all(SAVED.is_one(path) for path in made)


def _begin_some(state: Path) -> None:
    for _ in range(10):
        begin(state, MUG, content(MUG, Progress(case=os.urandom(16).hex())))


def test_many_at_once_take_nobodys_place(tmp_path: Path) -> None:
    spawn = multiprocessing.get_context("fork")
    processes = [spawn.Process(target=_begin_some, args=(tmp_path,)) for _ in range(4)]
    for process in processes:
        process.start()
    for process in processes:
        process.join()
        assert process.exitcode == 0
    found = all_waiting(tmp_path)
    cases = {one.saved.progress.case for one in found if one.saved and one.saved.progress}
    assert len(found) == how_many(tmp_path) == len(cases) == 40


def test_what_waits_is_listed_the_newest_first(tmp_path: Path) -> None:
    assert all_waiting(tmp_path) == []
    old, new = begin(tmp_path, MUG, content(MUG)), begin(tmp_path, Session(), content(Session()))
    os.utime(old, (time.time() - 90, time.time() - 90))
    assert [one.path for one in all_waiting(tmp_path)] == [new, old]


def test_a_case_that_was_kept_waits_for_nothing(tmp_path: Path) -> None:
    for progress in (None, Progress(case=CASE, kept=True), Progress(case=CASE)):
        begin(tmp_path, OVER, content(OVER, progress))
    assert [one.name for one in all_waiting(tmp_path)] == ["mug-ghosting-3"]


def test_what_an_older_presslore_left_is_found(tmp_path: Path) -> None:
    (tmp_path / EARLIER_FILE).write_bytes(content(MUG))
    assert [(one.name, one.path) for one in all_waiting(tmp_path)] == [(EARLIER, tmp_path / EARLIER_FILE)]
    (tmp_path / EARLIER_FILE).write_bytes(content(OVER))
    assert all_waiting(tmp_path) == []


def test_a_file_that_cannot_be_read_is_named(tmp_path: Path) -> None:
    begin(tmp_path, MUG, content(MUG))
    for name, text in (("broken.json", b"{"), ("picture.json", b"\xff\xd8"), ("notes.txt", b"")):
        (tmp_path / FOLDER / name).write_bytes(text)
    found = {one.name: one.wrong for one in all_waiting(tmp_path)}
    assert set(found) == {"mug-ghosting", "broken", "picture"}
    assert found["mug-ghosting"] == ""
    assert (
        found["broken"]
        == f"{tmp_path / FOLDER / 'broken.json'}:1:2: the saved session is damaged: start afresh, or mend the file"
    )
    assert "no UTF-8 text" in found["picture"]


def test_progress_comes_back_exactly_and_a_spoilt_one_is_refused(tmp_path: Path) -> None:
    told = Progress(case=CASE, minutes=3.25, took={"peel": 1.5}, ended=1_700_000_000.5, kept=True)
    saved = read_saved(begin(tmp_path, OVER, content(OVER, told)))
    assert (saved.progress, saved.session, saved.content) == (told, OVER, content(OVER, told))
    plain = json.loads(content(OVER, told))
    changes: list[dict[str, object]] = [
        {"case": "../x"},
        {"minutes": -1},
        {"minutes": True},
        {"took": []},
        {"ended": "now"},
        {"kept": 1},
    ]
    for change in changes:
        begin(tmp_path, MUG, json.dumps({**plain, "progress": {**plain["progress"], **change}}).encode())
    assert [bool(one.wrong) for one in all_waiting(tmp_path)] == [True] * 6
