"""The files for mkdocs: the same input gives the same bytes, and nothing in them tells of this machine."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from diagnose.handbook import building
from diagnose.handbook.site import site
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.shop import Shop
from tests.handbook.reading import digest

DIGEST = """
from diagnose.handbook import building
from diagnose.handbook.site import site
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.shop import Shop
from tests.handbook.reading import digest
root = shipped_folder()
print(digest(site(load(), Shop(), building.read_changes(root), building.read_docs(root))))
"""
ALLOWED = re.compile(r"https?://(?:www\.w3\.org/|handbook\.example/)")  # RFC 2606: .example is nobody's


@pytest.mark.slow
def test_the_same_bytes_wherever_and_whenever(files: dict[str, bytes], tmp_path: Path) -> None:
    """Here, and in another process, in another folder, with other hashes and nothing kept from before."""
    settings = {"PYTHONHASHSEED": "7", "PYTHONPATH": str(shipped_folder()), "XDG_CACHE_HOME": str(tmp_path / "cache")}
    done = subprocess.run(
        [sys.executable, "-c", DIGEST], cwd=tmp_path, env={**os.environ, **settings}, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == digest(files)


def test_nothing_tells_of_this_machine(files: dict[str, bytes]) -> None:
    here = str(shipped_folder()).encode()
    assert [path for path, content in files.items() if here in content or b"/home/" in content] == []


def test_nothing_is_fetched_from_outside(files: dict[str, bytes]) -> None:
    """Vendored scripts and licences aside, no file so much as names an address on the network."""
    named = {
        path: found
        for path, content in files.items()
        if "/vendor/" not in path
        for found in re.findall(r"https?://[^\s\"')]+", content.decode(errors="replace"))
        if not ALLOWED.match(found)
    }
    assert named == {}


def test_paths_are_short_and_plain(files: dict[str, bytes]) -> None:
    assert [path for path in files if not re.fullmatch(r"[A-Za-z0-9._/-]+", path)] == []


def test_a_site_can_be_drawn_without_hand_written_pages() -> None:
    assert "index.md" in site(load(), Shop(), "", {})


def test_the_hand_written_pages_are_those_in_docs(files: dict[str, bytes]) -> None:
    written = building.read_docs(shipped_folder())
    assert set(written) <= set(files)
    assert not any(path.startswith("generated/") for path in written)
