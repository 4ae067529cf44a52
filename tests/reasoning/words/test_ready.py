"""The lexicon kept in the cache folder."""

import json
from dataclasses import replace
from hashlib import blake2b
from pathlib import Path

import pytest

from diagnose.knowledge import kept
from diagnose.knowledge.model import Knowledge
from diagnose.reasoning.words import Lexicon, find_item, lexicon, ready, understand
from diagnose.reasoning.words.lexicon import build
from tests.bench.words import told

ASKED = ["no ghost, but the colours are dul", "65/35 tea towel with brown marks", "the platen reads low", "hello"]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory, words: Lexicon) -> Path:
    made = tmp_path_factory.mktemp("kept")
    lexicon(words.knowledge, made)
    return made


@pytest.fixture(scope="module")
def few(words: Lexicon) -> Knowledge:
    """A part of what ships, whose lexicon is made in a moment."""
    known = words.knowledge
    defects = {name: known.defects[name] for name in ("faint-colour", "ghosting")}
    return replace(known, defects=defects, items={"mug": known.items["mug"]}, checks={})


def only_file(folder: Path) -> Path:
    (path,) = folder.iterdir()
    return path


def sealed(body: bytes) -> bytes:
    return blake2b(body, digest_size=16).hexdigest().encode() + b"\n" + body


def test_what_is_kept_answers_as_what_was_built(words: Lexicon, folder: Path) -> None:
    before = only_file(folder).stat().st_mtime_ns
    back, made = lexicon(words.knowledge, folder), build(words.knowledge)
    assert only_file(folder).stat().st_mtime_ns == before
    for text in [*ASKED, *(sentence for _, sentence in told("paraphrases-tuning.yaml")[::10])]:
        assert understand(back, text) == understand(made, text)
        assert find_item(back, text) == find_item(made, text)


def test_the_same_knowledge_gives_the_same_bytes(words: Lexicon, folder: Path, tmp_path: Path) -> None:
    lexicon(words.knowledge, tmp_path)
    assert only_file(tmp_path).read_bytes() == only_file(folder).read_bytes()


def test_other_words_are_never_read_from_it(few: Knowledge, tmp_path: Path) -> None:
    lexicon(few, tmp_path)
    other = replace(few, heard={"ghosting": ("It has the wobblegobs.",)})
    assert lexicon(other, tmp_path).whole("it has the wobblegobs") == "ghosting"
    assert len(list(tmp_path.iterdir())) == 2


def test_other_code_makes_it_anew(few: Knowledge, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lexicon(few, tmp_path)
    monkeypatch.setattr(ready, "code_digest", lambda: "another version")
    lexicon(few, tmp_path)
    assert len(list(tmp_path.iterdir())) == 2


@pytest.mark.parametrize(
    "spoilt",
    [b"", b"no seal\n{}", sealed(b"{}"), sealed(b"null"), sealed(b"[" * 100_000), sealed(json.dumps([1]).encode())],
)
def test_a_corrupt_or_foreign_file_is_ignored_and_rewritten(few: Knowledge, tmp_path: Path, spoilt: bytes) -> None:
    lexicon(few, tmp_path)
    path = only_file(tmp_path)
    good = path.read_bytes()
    path.write_bytes(spoilt)
    assert understand(lexicon(few, tmp_path), "pale").defects[0].id == "faint-colour"
    assert path.read_bytes() == good


def test_a_folder_that_cannot_be_written_is_fine(few: Knowledge, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    assert lexicon(few, tmp_path / "file" / "cache").whole("pale") == "faint-colour"


def test_no_folder_at_all_is_fine(few: Knowledge, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kept, "usual_folder", lambda: None)
    assert lexicon(few).whole("pale") == "faint-colour"
