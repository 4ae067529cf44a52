"""Every defect has a picture that any page can carry: whole, self-contained, legible and the same each time."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from diagnose.handbook.pictures import alternative, draw, drawn
from diagnose.handbook.pictures.bench import Bench
from diagnose.handbook.pictures.colour import DAY, NAVY, WHITE, Colour
from diagnose.handbook.pictures.scenes import SCENES
from diagnose.knowledge.loading import load

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


def test_the_two_halves_differ() -> None:
    for defect_id, scene in SCENES.items():
        assert scene.good(Bench(defect_id)) != scene.bad(Bench(defect_id)), defect_id


def test_no_picture_for_an_unknown_defect() -> None:
    with pytest.raises(KeyError):
        draw("no-such-defect", "A title")
    with pytest.raises(KeyError):
        alternative("no-such-defect")


def test_one_name_means_one_thing() -> None:
    bench = Bench("x")
    assert bench.clip("edge", "M0 0H1V1Z") == bench.clip("edge", "M0 0H1V1Z") == "url(#picture-x-edge)"
    with pytest.raises(ValueError, match="picture-x-edge"):
        bench.clip("edge", "M0 0H2V2Z")


def test_colours() -> None:
    assert str(Colour(1, 160, 255)) == "#01a0ff"
    assert Colour(0, 100, 200).towards(WHITE, 0.5) == (128, 178, 228)
    assert WHITE.over(NAVY) == NAVY
    assert DAY.faint(1).sky == DAY.bare
    assert DAY.faint(0) == DAY
    assert DAY.dyed(NAVY).bare == NAVY
