import json
import multiprocessing
import os
from hashlib import blake2b
from pathlib import Path

import pytest

from diagnose.knowledge import cache
from diagnose.knowledge.folders import read_folders
from diagnose.knowledge.laying.compiling import compile_stock
from diagnose.knowledge.loading import inspect, load
from diagnose.problems import Collector


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    return tmp_path / "cache"


def only_file(folder: Path) -> Path:
    (path,) = folder.iterdir()
    return path


def sealed(body: bytes) -> bytes:
    return blake2b(body, digest_size=16).hexdigest().encode() + b"\n" + body


def test_the_same_content_gives_the_same_bytes(tiny: Path, kept: Path) -> None:
    load(tiny, cache_dir=kept)
    first = only_file(kept).read_bytes()
    only_file(kept).unlink()
    load(tiny, cache_dir=kept)
    assert only_file(kept).read_bytes() == first


def test_what_is_kept_comes_back_equal(tiny: Path, kept: Path) -> None:
    compiled = load(tiny, cache_dir=kept)
    before = only_file(kept).stat().st_mtime_ns
    assert load(tiny, cache_dir=kept) == compiled
    assert only_file(kept).stat().st_mtime_ns == before


def test_changed_content_is_compiled_anew(tiny: Path, kept: Path) -> None:
    load(tiny, cache_dir=kept)
    path = tiny / "kb" / "all.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("rarely", "likely"), encoding="utf-8")
    assert load(tiny, cache_dir=kept).causes["platen-runs-cool"].turns_up.word == "likely"
    assert len(list(kept.iterdir())) == 2


def test_a_renamed_file_is_compiled_anew(tiny: Path, kept: Path) -> None:
    load(tiny, cache_dir=kept)
    (tiny / "kb" / "all.yaml").rename(tiny / "kb" / "everything.yaml")
    assert load(tiny, cache_dir=kept).causes["dwell-short"].place.file.endswith("everything.yaml")


def test_other_code_compiles_anew(tiny: Path, kept: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    load(tiny, cache_dir=kept)
    monkeypatch.setattr(cache, "code_digest", lambda: "another version")
    load(tiny, cache_dir=kept)
    assert len(list(kept.iterdir())) == 2


def test_places_are_shown_from_where_one_stands(tiny: Path, kept: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tiny)
    load(tiny, cache_dir=kept)
    monkeypatch.chdir(tiny.parent)
    assert load(tiny, cache_dir=kept).causes["dwell-short"].place.file == "tiny/kb/all.yaml"


@pytest.mark.parametrize(
    "spoilt",
    [
        b"",
        b"\x00\xff" * 100,
        b"not a seal\n{}",
        sealed(b"[1, 2, 3]"),
        sealed(b"{}"),
        sealed(b"null"),
        sealed(b"[" * 100_000),
        sealed(json.dumps([[]] * 14).encode()),
        sealed(b"\xff"),
    ],
)
def test_a_corrupt_or_foreign_file_is_ignored_and_rewritten(tiny: Path, kept: Path, spoilt: bytes) -> None:
    compiled = load(tiny, cache_dir=kept)
    good = only_file(kept).read_bytes()
    only_file(kept).write_bytes(spoilt)
    assert load(tiny, cache_dir=kept) == compiled
    assert only_file(kept).read_bytes() == good


def test_a_file_cut_short_is_ignored(tiny: Path, kept: Path) -> None:
    compiled = load(tiny, cache_dir=kept)
    path = only_file(kept)
    path.write_bytes(path.read_bytes()[:-100])
    assert load(tiny, cache_dir=kept) == compiled


def test_a_folder_that_cannot_be_written_is_fine(tiny: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    assert load(tiny, cache_dir=tmp_path / "file" / "cache") == inspect(tiny)[0]


def test_no_folder_at_all_is_fine(tiny: Path) -> None:
    folders = read_folders([tiny], Collector())
    stock, store = compile_stock(folders, Collector()), cache.Cache(None, folders)
    assert stock is not None
    store.write(stock)
    assert store.read() is None


def test_the_oldest_files_make_room(tiny: Path, kept: Path) -> None:
    kept.mkdir()
    for number in range(20):
        old = kept / f"knowledge-{number}.json"
        old.write_bytes(b"")
        os.utime(old, (number, number))
    (kept / "not ours.json").write_bytes(b"")
    load(tiny, cache_dir=kept)
    names = {path.name for path in kept.iterdir()}
    assert len(names) == cache.KEPT + 1
    assert {"not ours.json", "knowledge-19.json"} <= names


def test_usual_folder(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PRESSLORE_CACHE", "one")
    monkeypatch.setenv("XDG_CACHE_HOME", "other")
    assert cache.usual_folder() == Path("one")
    monkeypatch.delenv("PRESSLORE_CACHE")
    assert cache.usual_folder() == Path("other/presslore")


def _load_often(tiny: Path, kept: Path) -> None:
    for _ in range(5):
        knowledge = load(tiny, cache_dir=kept)
        assert knowledge.causes
        for path in kept.glob("knowledge-*.json"):
            path.unlink(missing_ok=True)


def test_several_processes_at_once(tiny: Path, kept: Path) -> None:
    context = multiprocessing.get_context("fork")
    workers = [context.Process(target=_load_often, args=(tiny, kept)) for _ in range(4)]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    assert [worker.exitcode for worker in workers] == [0] * 4
    assert load(tiny, cache_dir=kept) == inspect(tiny)[0]
    assert only_file(kept).suffix == ".json"
