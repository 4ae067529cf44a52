"""Putting a built folder in its place: nothing of anybody else's gives way to it, and nothing is there by halves."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from diagnose.handbook import placing
from diagnose.handbook.placing import MARK, is_marked, mark, prove, replacing
from diagnose.problems import PressloreError

FILL = """
import sys, time
from pathlib import Path
from diagnose.handbook.placing import replacing
with replacing(Path(sys.argv[1])) as fresh:
    for page in "abc":
        (fresh / page).write_text("new")
    print("ready", flush=True)
    time.sleep(float(sys.argv[2]))
"""


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "here" / "site"


def build(target: Path, word: str) -> None:
    with replacing(target) as fresh:
        for page in "abc":
            (fresh / page).write_text(word)


def stands(target: Path) -> dict[str, str]:
    """What a folder holds, and that nothing is left beside it."""
    assert [path.name for path in target.parent.iterdir()] == [target.name]
    assert is_marked(target)
    return {path.name: path.read_text() for path in sorted(target.iterdir()) if path.name != MARK}


def whole(word: str) -> dict[str, str]:
    return dict.fromkeys("abc", word)


@pytest.fixture(params=["at once", "by turns"])
def _each_way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    if request.param == "by turns":
        monkeypatch.setattr(placing, "_exchanged", lambda one, other: False)


@pytest.mark.usefixtures("_each_way")
def test_what_presslore_made_gives_way(out: Path) -> None:
    build(out, "old")
    assert stands(out) == whole("old")
    (out / "left").write_text("over")
    build(out, "new")
    assert stands(out) == whole("new")


@pytest.mark.usefixtures("_each_way")
def test_an_empty_folder_gives_way(out: Path) -> None:
    out.mkdir(parents=True)
    build(out, "new")
    assert stands(out) == whole("new")


def test_others_may_read_it_as_any_folder_made_here(out: Path) -> None:
    build(out, "new")
    (out.parent / "usual").mkdir()
    assert out.stat().st_mode == (out.parent / "usual").stat().st_mode


def test_what_presslore_did_not_make_stays(out: Path) -> None:
    (out / "inner").mkdir(parents=True)
    (out / "inner" / "letter.txt").write_text("mine")
    with pytest.raises(PressloreError, match="presslore did not make it") as caught:
        build(out, "new")
    assert "delete it and build again" in str(caught.value)
    assert (out / "inner" / "letter.txt").read_text() == "mine"
    assert [path.name for path in out.parent.iterdir()] == ["site"]


def test_its_neighbours_stay(out: Path) -> None:
    out.parent.mkdir()
    names = ["site.new", "site.old", ".site.presslore-new-mine1234", ".site.presslore-new-longer-than-ours"]
    for name in names:
        (out.parent / name).mkdir()
        (out.parent / name / "letter.txt").write_text("mine")
    build(out, "old")
    build(out, "new")
    assert [(out.parent / name / "letter.txt").read_text() for name in names] == ["mine"] * len(names)


@pytest.mark.parametrize("name", ["shop.yaml", "casebook.sqlite3", "rules", "kb", ".git"])
def test_a_marked_folder_that_became_somebodys_stays(name: str, out: Path) -> None:
    build(out, "old")
    (out / name).mkdir()
    with pytest.raises(PressloreError, match="is kept here"):
        build(out, "new")
    assert (out / "a").read_text() == "old"


def test_a_mark_that_says_nothing_or_is_a_link_is_none(out: Path) -> None:
    build(out, "old")
    (out.parent / "mark").write_bytes((out / MARK).read_bytes())
    (out / MARK).write_text("")
    assert not is_marked(out)
    (out / MARK).unlink()
    (out / MARK).symlink_to(out.parent / "mark")
    assert not is_marked(out)
    (out / MARK).unlink()
    os.mkfifo(out / MARK)
    assert not is_marked(out)


def test_a_link_or_a_file_is_not_replaced(out: Path) -> None:
    build(out, "old")
    (out.parent / "link").symlink_to(out)
    (out.parent / "dangling").symlink_to(out.parent / "nowhere")
    (out.parent / "file").write_text("mine")
    for name, said in (("link", "this is a link"), ("dangling", "this is a link"), ("file", "something else")):
        with pytest.raises(PressloreError, match=said):
            build(out.parent / name, "new")
    assert (out / "a").read_text() == "old"
    assert (out.parent / "file").read_text() == "mine"


def test_a_way_through_a_link_leads_to_the_real_folder(out: Path, tmp_path: Path) -> None:
    build(out, "old")
    (tmp_path / "way").symlink_to(out.parent)
    build(tmp_path / "way" / "site", "new")
    assert stands(out) == whole("new")
    with pytest.raises(PressloreError, match="a shop or the checkout is here"):
        prove(tmp_path / "way" / "site", [out])


def test_folders_that_are_never_replaced(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shop, home = tmp_path / "trade" / "quay", tmp_path / "homes" / "somebody"
    for folder in (shop, home):
        folder.mkdir(parents=True)
        for each in (folder, folder.parent):
            mark(each)
    monkeypatch.setenv("HOME", str(home))
    never = [Path("/"), home, home.parent, tmp_path, shop, shop.parent, shop / "rules", shop / "kb" / "deep" / "er"]
    for folder in never:
        with pytest.raises(PressloreError, match="nothing was changed"):
            prove(folder, [shop])
    for folder in (shop / "site", home / "site", shop.parent / "site"):
        prove(folder, [shop])


def test_where_nothing_can_be_written_it_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    for target in (tmp_path / "file" / "site", tmp_path / ("n" * 300)):
        with pytest.raises(PressloreError, match="cannot be built here"):
            build(target, "new")


@pytest.mark.usefixtures("_each_way")
@pytest.mark.parametrize("stop", [KeyboardInterrupt, PressloreError("refused")])
def test_a_build_that_stops_leaves_all_as_it_was(stop: BaseException, out: Path) -> None:
    def stopped() -> None:
        with replacing(out) as fresh:
            (fresh / "a").write_text("half")
            raise stop

    with pytest.raises(BaseException, match=r"refused|^$"):
        stopped()
    assert [*out.parent.iterdir()] == []
    build(out, "old")
    with pytest.raises(BaseException, match=r"refused|^$"):
        stopped()
    assert stands(out) == whole("old")


def test_the_old_one_comes_back_where_the_second_step_fails(out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    build(out, "old")
    monkeypatch.setattr(placing, "_exchanged", lambda one, other: False)
    steps, rename = [], os.rename

    def failing(one: Path, other: Path) -> None:
        steps.append(other)
        if len(steps) == 2:
            raise OSError(28, "No space left on device")
        rename(one, other)

    monkeypatch.setattr(os, "rename", failing)
    with pytest.raises(PressloreError, match="No space left"):
        build(out, "new")
    assert len(steps) == 3
    assert stands(out) == whole("old")


def test_what_a_killed_build_left_is_swept_and_an_old_one_comes_back(out: Path) -> None:
    build(out, "old")
    for name in (".site.presslore-new-abcdefg1", ".site.presslore-new-abcdefg2"):
        (out.parent / name).mkdir()
    mark(out.parent / ".site.presslore-new-abcdefg2")
    (out.parent / ".site.presslore-new-abcdefg4").mkdir()
    (out.parent / ".site.presslore-new-abcdefg4" / MARK).write_text("")  # killed before it said anything
    os.rename(out, out.parent / ".site.presslore-old-abcdefg3")  # killed between the two steps
    with pytest.raises(PressloreError, match="refused"), replacing(out):
        raise PressloreError("refused")
    assert stands(out) == whole("old")


@pytest.mark.parametrize("after", range(5))
def test_a_removal_that_was_stopped_is_taken_up_again(after: int, out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    build(out, "old")
    removed, unlink = [], Path.unlink

    def stopping(path: Path, missing_ok: bool = False) -> None:
        removed.append(path)
        if len(removed) > after:
            raise KeyboardInterrupt
        unlink(path, missing_ok)

    with monkeypatch.context() as stopped:
        stopped.setattr(Path, "unlink", stopping)
        if after < 4:  # three pages and the mark
            with pytest.raises(KeyboardInterrupt):
                build(out, "new")
        else:
            build(out, "new")
    assert {path.read_text() for path in out.iterdir() if path.name != MARK} == {"new"}
    build(out, "last")
    assert stands(out) == whole("last")


def test_a_build_that_still_runs_is_not_swept(out: Path) -> None:
    with replacing(out) as slow:
        (slow / "a").write_text("slow")
        build(out, "quick")
        assert (slow / "a").read_text() == "slow"
    assert stands(out) == {"a": "slow"}


@pytest.mark.slow
@pytest.mark.parametrize("signs", [signal.SIGKILL, signal.SIGINT])
def test_stopped_at_any_moment_the_old_folder_or_the_new_one_is_there(signs: signal.Signals, out: Path) -> None:
    build(out, "old")
    found = set[str]()
    for late in range(12):
        going = subprocess.Popen(
            [sys.executable, "-c", FILL, str(out), "0"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
        )
        assert going.stdout is not None
        going.stdout.readline()
        time.sleep(late * 0.0004)
        going.send_signal(signs)
        going.communicate(timeout=300)
        held = {path.read_text() for path in out.iterdir() if path.name != MARK}
        assert len(held) == 1
        found |= held
    build(out, "last")
    assert stands(out) == whole("last")
    assert found <= {"old", "new"}
