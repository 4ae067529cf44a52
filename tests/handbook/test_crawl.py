"""Every link, anchor and image of the built site leads somewhere, those that mkdocs does not look at too."""

import re
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote, urlsplit

import pytest

from tests.handbook.reading import Read, pages, read

pytestmark = pytest.mark.slow

OUR_STATE = {"diagnose.html"}  # what follows its # is what was seen, not an anchor
NOT_A_PAGE = {"404.html"}  # the theme links from it as from the top of a server
INSIDE_CSS = re.compile(rb"url\((?!['\"]?data:)['\"]?([^)'\"]+)['\"]?\)")


@pytest.fixture(scope="module")
def crawled(whole: Path) -> dict[str, Read]:
    return {path: read((whole / path).read_text(encoding="utf-8")) for path in pages(whole) if path not in NOT_A_PAGE}


def target(page: str, link: str) -> tuple[str, str]:
    """The file and the anchor that a link on a page leads to."""
    parts = urlsplit(link)
    path = normpath(join(dirname(page), unquote(parts.path))) if parts.path else page
    return path, unquote(parts.fragment)


def test_every_link_leads_to_a_file_and_an_anchor(whole: Path, crawled: dict[str, Read]) -> None:
    dead = []
    for page, held in crawled.items():
        for tag, _, link in held.links:
            if link.startswith(("data:", "#__")):
                continue
            path, anchor = target(page, link)
            if urlsplit(link).scheme or not (whole / path).is_file():
                dead.append(f"{page}: <{tag}> {link}")
            elif anchor and path not in OUR_STATE and path in crawled and anchor not in crawled[path].ids:
                dead.append(f"{page}: no {anchor} in {path}")
    assert dead == []


def test_no_page_repeats_an_id(crawled: dict[str, Read]) -> None:
    repeated = {page: {i for i in held.ids if held.ids.count(i) > 1} for page, held in crawled.items()}
    assert {page: ids for page, ids in repeated.items() if ids} == {}


def test_every_image_has_a_text_alternative(crawled: dict[str, Read]) -> None:
    assert [page for page, held in crawled.items() if held.unnamed_images] == []


def test_every_page_is_reached_from_the_front_page(crawled: dict[str, Read]) -> None:
    reached, ahead = set[str](), ["index.html"]
    while ahead:
        page = ahead.pop()
        if page in reached or page not in crawled:
            continue
        reached.add(page)
        ahead += [target(page, link)[0] for tag, _, link in crawled[page].links if tag == "a"]
    assert set(crawled) - reached == set()


def test_style_sheets_name_files_that_are_there(whole: Path) -> None:
    dead = []
    for sheet in whole.rglob("*.css"):
        for named in INSIDE_CSS.findall(sheet.read_bytes()):
            path = (sheet.parent / named.decode().split("#")[0].split("?")[0]).resolve()
            if not named.startswith(b"#") and not path.is_file():
                dead.append(f"{sheet.name}: {named.decode()}")
    assert dead == []
