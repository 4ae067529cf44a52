"""Writing, checking and building: what is there, what would change, and what mkdocs refuses."""

from pathlib import Path

import pytest

from diagnose.cli import exits
from diagnose.cli.program import run
from diagnose.handbook import building, placing
from diagnose.handbook.book import Handbook
from diagnose.handbook.building import Drift
from diagnose.handbook.page import offline
from diagnose.knowledge.loading import shipped_folder
from diagnose.problems import PressloreError
from tests.handbook.chromium import two_pages

SETTINGS = """\
site_name: Small
docs_dir: !ENV [PRESSLORE_HANDBOOK_SOURCE, docs/generated]
strict: true
use_directory_urls: false
theme: {name: material, font: false}
validation:
  links: {not_found: warn, anchors: warn}
"""


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """A checkout with a site of its own."""
    root = tmp_path / "checkout"
    (root / "docs" / "generated").mkdir(parents=True)
    (root / "mkdocs.yml").write_text(SETTINGS)
    (root / "docs" / "lessons").mkdir()
    (root / "docs" / "lessons" / "by-hand.md").write_text("# By hand\n")
    (root / "docs" / "for-writers.md").write_text("# For who reads the checkout\n")
    (root / "docs" / "generated" / "old.md").write_text("# Old\n")
    placing.mark(root / "docs" / "generated")
    return root


def test_hand_written_pages_are_read_and_drawn_ones_are_not(small: Path) -> None:
    assert building.read_docs(small) == {"lessons/by-hand.md": b"# By hand\n"}


def test_decisions_and_screenshots_are_no_part_of_the_site(small: Path) -> None:
    for folder in ("decisions", "screenshots"):
        (small / "docs" / folder).mkdir()
        (small / "docs" / folder / "0001-one.md").write_text("# One\n")
    assert set(building.read_docs(small)) == {"lessons/by-hand.md"}


def test_where_the_hand_written_pages_are_gone_it_is_said_so(tmp_path: Path) -> None:
    with pytest.raises(PressloreError, match="not here"):
        building.read_docs(tmp_path)


def test_writing_leaves_these_files_and_no_others(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "same.md").write_bytes(b"same")
    (tmp_path / "changed.md").write_bytes(b"before")
    (tmp_path / "gone.md").write_bytes(b"gone")
    placing.mark(tmp_path)
    files = {"a/same.md": b"same", "changed.md": b"after", "b/new.md": b"new"}
    expected = Drift(new=("b/new.md",), changed=("changed.md",), gone=("gone.md",))
    untouched = (tmp_path / "a" / "same.md").stat().st_mtime_ns
    assert building.drift(tmp_path, files) == expected
    assert building.write(tmp_path, files) == expected
    assert not building.drift(tmp_path, files)
    assert (tmp_path / "a" / "same.md").stat().st_mtime_ns == untouched


def test_pages_are_never_written_over_files_that_presslore_did_not_make(tmp_path: Path) -> None:
    (tmp_path / "notes.md").write_text("by hand")
    with pytest.raises(PressloreError, match="presslore did not make it"):
        building.write(tmp_path, {"index.md": b"# Start"})
    assert [path.name for path in tmp_path.iterdir()] == ["notes.md"]


def test_no_link_among_the_pages_is_followed(tmp_path: Path) -> None:
    pages, elsewhere = tmp_path / "pages", tmp_path / "elsewhere"
    building.write(pages, {"index.md": b"# Start", "fixes/a.md": b"# Fix"})
    (elsewhere / "deep").mkdir(parents=True)
    for file in (elsewhere / "mine.md", elsewhere / "deep" / "a.md"):
        file.write_bytes(b"mine")
    (pages / "index.md").unlink()
    (pages / "index.md").symlink_to(elsewhere / "mine.md")
    (pages / "fixes" / "a.md").unlink()
    (pages / "fixes").rmdir()
    (pages / "fixes").symlink_to(elsewhere / "deep")
    building.write(pages, {"index.md": b"# Other", "fixes/a.md": b"# Other"})
    assert [(pages / path).read_bytes() for path in ("index.md", "fixes/a.md")] == [b"# Other"] * 2
    assert [path.read_bytes() for path in (elsewhere / "mine.md", elsewhere / "deep" / "a.md")] == [b"mine"] * 2


@pytest.mark.slow
def test_a_dead_link_is_refused_and_the_old_site_stays(small: Path) -> None:
    pages, out = small / "docs" / "generated", small / "site"
    building.write(pages, {"index.md": b"# Start\n"})
    building.build(small, out)
    before = (out / "index.html").read_bytes()
    building.write(pages, {"index.md": b"# Other\n\n[gone](gone.md) [no](#nowhere)\n"})
    with pytest.raises(PressloreError) as caught:
        building.build(small, out)
    assert "gone.md" in str(caught.value)
    assert "#nowhere" in str(caught.value)
    assert (out / "index.html").read_bytes() == before
    assert sorted(path.name for path in small.iterdir()) == ["docs", "mkdocs.yml", "site"]


@pytest.mark.slow
def test_the_same_two_pages_build_the_same_site(two: Path, book: Handbook, tmp_path: Path) -> None:
    assert building.drift(two_pages(book, tmp_path), {**_read(two)}) == Drift()


@pytest.mark.thorough
def test_the_same_pages_build_the_same_site(whole: Path, with_cases: dict[str, bytes], tmp_path: Path) -> None:
    building.write(tmp_path / "pages", with_cases)
    building.build(shipped_folder(), tmp_path / "site", tmp_path / "pages")
    assert building.drift(tmp_path / "site", {**_read(whole)}) == Drift()


def _read(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_the_command_checks_and_rehearses(
    small: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    drawn = {"index.md": b"# Start\n"}
    monkeypatch.setattr("diagnose.cli.handbook.shipped_folder", lambda: small)
    monkeypatch.setattr("diagnose.cli.handbook.drawn", lambda root, shop, far=None: drawn)
    assert run(["handbook", "build", "--dry-run"]) == exits.GOOD
    assert capsys.readouterr().out.splitlines() == ["new docs/generated/index.md", "gone docs/generated/old.md"]
    assert run(["handbook", "build", "--check"]) == exits.PROBLEMS
    assert (small / "docs" / "generated" / "old.md").exists()
    building.write(small / "docs" / "generated", drawn)
    capsys.readouterr()
    assert run(["handbook", "build", "--check"]) == exits.GOOD
    assert capsys.readouterr().out == "All drawn pages are current.\n"


@pytest.mark.slow
def test_the_command_builds_where_it_is_told(
    small: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("diagnose.cli.handbook.shipped_folder", lambda: small)
    monkeypatch.setattr("diagnose.cli.handbook.drawn", lambda root, shop, far=None: {"index.md": b"# Start\n"})
    assert run(["handbook", "build", "--out", str(tmp_path / "elsewhere")]) == exits.GOOD
    assert "index.html" in capsys.readouterr().out
    assert (tmp_path / "elsewhere" / "index.html").is_file()
    assert (tmp_path / "elsewhere" / "worker.js").is_file()


def test_the_command_refuses_before_anything_is_drawn(
    small: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shop = small.parent / "quay"
    (shop / "rules").mkdir(parents=True)
    (shop / "shop.yaml").write_text("name: Quay\n")
    monkeypatch.setattr("diagnose.cli.handbook.shipped_folder", lambda: small)
    monkeypatch.setattr("diagnose.cli.handbook.drawn", lambda root, shop, far=None: pytest.fail("drawn"))
    for out in (shop, shop.parent, shop / "rules" / "site", small, small / "docs", small / "docs" / "site"):
        assert run(["handbook", "build", "--shop", str(shop), "--out", str(out)]) == exits.PROBLEMS
        assert "nothing was changed" in capsys.readouterr().err
    assert sorted(path.name for path in shop.iterdir()) == ["rules", "shop.yaml"]


def test_without_mkdocs_it_is_said_what_to_do(small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("diagnose.handbook.building.find_spec", lambda name: None)
    with pytest.raises(PressloreError, match=r"\./dev handbook.*presslore\[handbook\]"):
        building.build(small, small / "site")


@pytest.mark.parametrize("call", [["handbook", "build"], ["handbook", "serve", "--port", "0"]])
def test_without_mkdocs_nothing_is_drawn_first(
    small: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], call: list[str]
) -> None:
    monkeypatch.setattr("diagnose.handbook.building.find_spec", lambda name: None)
    monkeypatch.setattr("diagnose.cli.handbook.shipped_folder", lambda: small)
    monkeypatch.setattr("diagnose.cli.handbook.drawn", lambda root, shop, far=None: pytest.fail("drawn"))
    assert run(call) == exits.PROBLEMS
    assert "presslore[handbook]" in " ".join(capsys.readouterr().err.split())


@pytest.mark.slow
def test_installed_it_builds_in_the_working_folder_and_draws_nothing_where_it_lies(
    small: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("diagnose.cli.handbook.shipped_folder", lambda: small)
    monkeypatch.setattr("diagnose.handbook.building.is_installed", lambda root: root == small)
    monkeypatch.setattr("diagnose.cli.handbook.drawn", lambda root, shop, far=None: {"index.md": b"# Start\n"})
    before = sorted(small.rglob("*"))
    assert run(["handbook", "build"]) == exits.GOOD
    assert capsys.readouterr().out == f"Built 1 files into site; open {Path('site', 'index.html')}.\n"
    assert (tmp_path / "site" / "index.html").is_file()
    assert sorted(small.rglob("*")) == before
    assert run(["handbook", "build", "--check"]) == exits.USAGE
    assert "in a checkout" in capsys.readouterr().err


def test_a_checkout_is_not_taken_for_an_installed_package() -> None:
    assert not building.is_installed(shipped_folder())
    assert building.is_installed(Path(building.__file__).parent.parent / "shipped")


def test_pages_of_an_older_presslore_are_named_before_anything_is_drawn(
    small: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (small / "docs" / "generated" / placing.MARK).unlink()
    monkeypatch.setattr("diagnose.cli.handbook.shipped_folder", lambda: small)
    monkeypatch.setattr("diagnose.cli.handbook.drawn", lambda root, shop, far=None: pytest.fail("drawn"))
    for call in (["handbook", "build"], ["handbook", "serve", "--port", "0"]):
        assert run(call) == exits.PROBLEMS
        said = capsys.readouterr().err
        assert str(small / "docs" / "generated") in said
        assert "if an older presslore built it, delete it and build again" in said


def test_no_hidden_file_is_listed_for_devices_to_keep(tmp_path: Path) -> None:
    """Many web servers show none: a site that lists one could never be kept whole."""
    placing.mark(tmp_path)
    (tmp_path / "index.html").write_text("<p>start</p>")
    (worker,) = offline.worker_for(tmp_path).values()
    assert b'"index.html"' in worker
    assert placing.MARK.encode() not in worker
