"""The page on what a figure says, drawn from the knowledge."""

from dataclasses import replace

from diagnose.handbook.book import Handbook
from diagnose.handbook.pages import checks, figures
from diagnose.knowledge.loading import load
from diagnose.knowledge.shop import Shop

KNOWN = load()


def page(shop: Shop | None = None) -> str:
    return next(figures.leaves(Handbook(KNOWN, shop or Shop()))).file().decode()


def test_every_measure_stands_on_it_with_its_cautions_and_its_causes() -> None:
    text = page()
    for measure in KNOWN.readings.values():
        assert f"{{ #{measure.id} }}" in text
        part = text.split(f"{{ #{measure.id} }}")[1].split("\n## ")[0]
        assert all(f"causes/{cause}.md" in part for cause in measure.speaks)
        assert all(f"cautions.md#{caution}" in part for caution in measure.cautions)
        assert all(f"checks/{check}.md" in part for check in measure.settles)


def test_it_counts_in_the_units_of_the_shop() -> None:
    assert "14 °C (25 °F) short shows 48 times as often with it" in page()
    assert "25 °F (14 °C) short shows 48 times as often with it" in page(Shop(temperature="F"))


def test_a_check_leads_to_its_figure() -> None:
    leaf = next(one for one in checks.leaves(Handbook(KNOWN)) if one.path == "checks/probe-the-platen.md")
    assert "(../figures.md#platen-gap)" in leaf.file().decode()


def test_a_shop_that_retired_all_measures_still_has_the_page() -> None:
    leaf = next(figures.leaves(Handbook(replace(KNOWN, readings={}))))
    assert "#platen-gap" not in leaf.file().decode()
