"""The page of the shop's own cases: there where the shop has cases, and nowhere else."""

from dataclasses import replace
from pathlib import Path

import pytest

from diagnose.casebook.report.report import Report, report
from diagnose.characters import unsafe
from diagnose.cli.handbook import cases
from diagnose.cli.shop.shelf import Shelf
from diagnose.handbook import building
from diagnose.handbook.book import Handbook
from diagnose.handbook.pages import casebook
from diagnose.handbook.site import site
from diagnose.knowledge.loading import shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop

PAGE = "casebook.md"


def drawn(known: Knowledge, found: Report | None) -> dict[str, bytes]:
    root = shipped_folder()
    return site(known, Shop(currency="EUR"), building.read_changes(root), building.read_docs(root), found)


def page_of(known: Knowledge, found: Report) -> str:
    [leaf] = casebook.leaves(Handbook(known, Shop(currency="EUR"), report=found))
    assert leaf.path == PAGE
    return leaf.file().decode()


def test_without_cases_nothing_is_drawn_of_them(known: Knowledge, files: dict[str, bytes], tmp_path: Path) -> None:
    assert PAGE not in files
    assert drawn(known, report([], [], known, Shop())).keys() == files.keys()
    assert b"casebook" not in files["index.md"]
    (tmp_path / "shop.yaml").write_text("name: The harbour workshop\n", encoding="utf-8")
    assert cases(Shelf(knowledge=known, folder=tmp_path), tmp_path) is None
    assert not (tmp_path / "casebook.sqlite3").exists()


def test_with_cases_there_is_a_page_with_charts_and_tables(
    known: Knowledge, found: Report, with_cases: dict[str, bytes]
) -> None:
    page = with_cases[PAGE].decode()
    assert page.count("<svg") == 3
    assert page.count("<table") == 5
    assert "16 cases: 15 cured, 1 handed over" in page
    assert b"casebook.md" in with_cases["index.md"]
    assert with_cases == drawn(known, found)


def test_no_markup_of_a_title_works_on_the_page(known: Knowledge, found: Report) -> None:
    first, *rest = found.causes
    hostile = replace(found, causes=(replace(first, title="<img src=x onerror=alert(1)> [a](b)"), *rest))
    page = page_of(known, hostile)
    assert "<img" not in page
    assert "&lt;img" in page


def test_no_sign_of_a_title_acts_on_the_page(known: Knowledge, found: Report) -> None:
    first, *rest = found.causes
    hostile = replace(found, causes=(replace(first, title="quay\u202e\x1b]52;\u2066side\u200b"), *rest))
    page = page_of(known, hostile)
    assert "quay]52;side" in page
    assert [*unsafe(page)] == []


def test_a_casebook_that_cannot_be_read_is_left_out_and_said(
    known: Knowledge, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "shop.yaml").write_text("name: The harbour workshop\n", encoding="utf-8")
    (tmp_path / "casebook.sqlite3").write_bytes(b"\xee" * 9000)
    assert cases(Shelf(knowledge=known, folder=tmp_path), tmp_path) is None
    assert "The page of the casebook is left out" in capsys.readouterr().err


@pytest.mark.slow
def test_mkdocs_takes_the_page(whole: Path) -> None:
    page = (whole / "casebook.html").read_text(encoding="utf-8")
    assert page.count("<title id=") == 3
    assert "<p><svg" not in page
