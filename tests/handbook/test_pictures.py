"""Every defect has a picture that any page can carry: whole, self-contained, legible and the same each time."""

import re
from html import unescape
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from diagnose.handbook.pictures import alternative, draw, drawn
from diagnose.handbook.pictures.bench import Canvas
from diagnose.handbook.pictures.colour import DAY, NAVY, WHITE, Rgb
from diagnose.handbook.pictures.scenes import SCENES
from diagnose.knowledge.loading import load
from tests.handbook.reading import pages

SVG = "{http://www.w3.org/2000/svg}"
ALL = sorted(drawn())
SAFE_ELEMENTS = set(
    "svg title desc defs g use path rect circle ellipse text clipPath linearGradient radialGradient stop pattern filter"
    " feGaussianBlur feTurbulence feDisplacementMap feComponentTransfer feFuncA feMerge feMergeNode".split()
)


@pytest.fixture(scope="module")
def titles(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    knowledge = load(cache_dir=Path(tmp_path_factory.mktemp("cache")))
    return {defect.id: defect.title for defect in knowledge.defects.values()}


def elements(defect_id: str) -> list[ElementTree.Element]:
    return list(ElementTree.fromstring(draw(defect_id, "A title")).iter())


def test_every_shipped_defect_is_drawn_and_nothing_else(titles: dict[str, str]) -> None:
    assert drawn() == frozenset(titles)


def test_its_title_and_its_words_are_in_the_picture(titles: dict[str, str]) -> None:
    for defect_id, title in titles.items():
        root = ElementTree.fromstring(draw(defect_id, title))
        names = {element.get("id"): element.text for element in root}
        assert root.get("role") == "img"
        assert names[root.get("aria-labelledby")] == title
        assert names[root.get("aria-describedby")] == alternative(defect_id)


def test_a_title_cannot_break_out() -> None:
    root = ElementTree.fromstring(draw("ghosting", "<b> & </title>"))
    assert root.findtext(f"{SVG}title") == "<b> & </title>"


@pytest.mark.parametrize("defect_id", ALL)
def test_alternative_is_one_or_two_sentences(defect_id: str) -> None:
    text = alternative(defect_id)
    assert 40 <= len(text) <= 200
    assert text.endswith(".")
    assert 1 <= len(re.findall(r"\.(?: |$)", text)) <= 2


@pytest.mark.parametrize("defect_id", ALL)
def test_nothing_comes_from_outside_or_runs(defect_id: str) -> None:
    for element in elements(defect_id):
        assert element.tag.removeprefix(SVG) in SAFE_ELEMENTS
        for name, value in element.attrib.items():
            assert not name.startswith(("on", "style"))
            assert name != "href" or value.startswith("#")
            assert value.count("url(") == value.count("url(#")


@pytest.mark.parametrize("defect_id", ALL)
def test_what_is_pointed_at_is_there(defect_id: str) -> None:
    text = draw(defect_id, "A title")
    ids = set(re.findall(r' id="([^"]+)"', text))
    used = set(re.findall(r'(?:url\(|href=")#([^)"]+)', text))
    assert used == {each for each in ids if not each.endswith(("-title", "-desc"))}


def test_ids_are_unique_across_all_pictures() -> None:
    ids = [element.get("id") for defect_id in ALL for element in elements(defect_id) if element.get("id")]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("defect_id", ALL)
def test_same_bytes_twice(defect_id: str) -> None:
    assert draw(defect_id, "A title") == draw(defect_id, "A title")


@pytest.mark.parametrize("defect_id", ALL)
def test_size(defect_id: str) -> None:
    text = draw(defect_id, "A title of a usual length")
    assert 'viewBox="0 0 640 300"' in text
    assert len(text.encode()) < 6144


@pytest.mark.parametrize("defect_id", ALL)
def test_words_stay_legible_on_a_narrow_page(defect_id: str) -> None:
    """Twelve pixels where 640 units are shown 360 wide; and short enough for the card in a wide face."""
    for element in elements(defect_id):
        if element.tag == f"{SVG}text":
            assert float(element.attrib["font-size"]) >= 22
            assert len(element.text or "") <= 17


UNFINISHED = re.compile(  # a last word that wants another after it
    r"(?:[^\w.]|\b(?:a|an|and|as|at|but|each|for|from|into|its|more|no|of|or|second|than|that|the|to|where|which|with"
    r"|weaker|paler|fainter|darker|deeper|softer|sharper))$"
)


@pytest.mark.parametrize("defect_id", ALL)
def test_no_words_are_cut_short(defect_id: str) -> None:
    scene = SCENES[defect_id]
    for caption in (scene.under_good, scene.under_bad):
        assert caption == " ".join(caption.split())
        assert not UNFINISHED.search(caption), caption
        assert not (re.match(r"(?:a|an|the)\b", caption) and "," in caption), f"{caption!r}: a what?"
    for sentence in re.split(r"(?<=\.) ", scene.alternative):
        assert re.fullmatch(r"[A-Z].*[^\W\d_]\.", sentence), sentence
        assert not UNFINISHED.search(sentence[:-1]), sentence
        assert "…" not in sentence
        assert "..." not in sentence


@pytest.mark.slow
def test_captions_stay_on_their_card(browser: Any, titles: dict[str, str]) -> None:
    pictures = "".join(draw(defect_id, title) for defect_id, title in titles.items())
    browser.get("data:text/html,<meta charset=utf-8><body>")
    browser.execute_script("document.body.innerHTML = arguments[0]", pictures)
    ends = (
        "return [...document.querySelectorAll('text[font-size=\"23\"]')]"
        ".map((one) => [one.textContent, one.getBBox().x + one.getBBox().width])"
    )
    found = browser.execute_script(ends)
    assert len(found) == 2 * len(titles)
    assert {text: end for text, end in found if end > 308} == {}


@pytest.mark.slow
def test_every_page_has_the_whole_words(whole: Path, titles: dict[str, str]) -> None:
    """Where a picture has words at all, they are all of its words."""
    whole_words = {f"{defect_id}.svg": {alternative(defect_id), ""} for defect_id in titles}
    seen = set()
    for page in pages(whole):
        for tag in re.findall(r"<img [^>]*>", (whole / page).read_text(encoding="utf-8")):
            words, source = re.search(r'alt="([^"]*)"', tag), re.search(r'src="[^"]*pictures/([^"]*)"', tag)
            if source:
                assert words is not None
                assert unescape(words[1]) in whole_words[source[1]], (page, tag)
                seen |= {source[1]} if words[1] else set()
    assert seen == set(whole_words)


def test_the_two_halves_differ() -> None:
    for defect_id, scene in SCENES.items():
        assert scene.good(Canvas(defect_id)) != scene.bad(Canvas(defect_id)), defect_id


def test_no_picture_for_an_unknown_defect() -> None:
    with pytest.raises(KeyError):
        draw("no-such-defect", "A title")
    with pytest.raises(KeyError):
        alternative("no-such-defect")


def test_one_name_means_one_thing() -> None:
    bench = Canvas("x")
    assert bench.clip("edge", "M0 0H1V1Z") == bench.clip("edge", "M0 0H1V1Z") == "url(#picture-x-edge)"
    with pytest.raises(ValueError, match="picture-x-edge"):
        bench.clip("edge", "M0 0H2V2Z")


def test_colours() -> None:
    assert str(Rgb(1, 160, 255)) == "#01a0ff"
    assert Rgb(0, 100, 200).towards(WHITE, 0.5) == (128, 178, 228)
    assert WHITE.over(NAVY) == NAVY
    assert DAY.faint(1).sky == DAY.bare
    assert DAY.faint(0) == DAY
    assert DAY.dyed(NAVY).bare == NAVY
