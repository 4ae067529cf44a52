"""Addresses stay as they are: people keep them, and codes on care cards point to them."""

import pytest

from diagnose.handbook.links import Links, address, built, pair_address


def test_addresses() -> None:
    assert address("defects", "ghosting") == "defects/ghosting.md"
    assert address("defects") == "defects/index.md"
    assert address("glossary", "dye-gas") == "glossary.md#dye-gas"
    assert address("care", "mugs") == "care/mugs.md"
    assert built("care/mugs.md") == "care/mugs.html"
    assert built("glossary.md#dye-gas") == "glossary.html#dye-gas"
    assert built("pictures/ghosting.svg") == "pictures/ghosting.svg"


def test_a_pair_has_one_page_whoever_is_named_first() -> None:
    assert pair_address("b", "a") == pair_address("a", "b") == "apart/a-or-b.md"


@pytest.mark.parametrize(
    ("start", "target", "way"),
    [
        ("index.md", "defects/a.md", "defects/a.md"),
        ("defects/a.md", "defects/b.md", "b.md"),
        ("defects/a.md", "glossary.md#x", "../glossary.md#x"),
        ("defects/a.md", "causes/c.md", "../causes/c.md"),
    ],
)
def test_the_way_from_one_page_to_another(start: str, target: str, way: str) -> None:
    assert Links(start).path(target) == way


def test_the_words_of_a_link_are_shown_as_written() -> None:
    assert Links("index.md").to("a.md", "a] *b*") == "[a&#93; &#42;b&#42;](a.md)"
    assert Links("index.md").html("a.md", "<b>") == '<a href="a.html">&lt;b&gt;</a>'
