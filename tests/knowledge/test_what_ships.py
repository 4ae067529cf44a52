"""What ships says of safety and of numbers, wherever it says it: by sources, not by whoever wrote a line."""

import re
from collections.abc import Iterator

import pytest

from diagnose.knowledge.loading import load
from diagnose.knowledge.model import Check, Fix, Knowledge


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return load()


def test_a_burn_is_cooled_for_twenty_minutes_without_ice(knowledge: Knowledge) -> None:
    """First aid: 20 minutes of cool running water, rings off, no ice (ERC guidelines 2021)."""
    told = [knowledge.cautions["hot-platen"].text, *knowledge.dangers["electric-shock"].steps]
    told = [text for text in told if re.search("burn", text, re.IGNORECASE) and "water" in text]
    assert len(told) == 2
    assert all("20 minutes" in text for text in told)
    assert "rings off, no ice" in told[0]
    burn = knowledge.dangers["burn"]
    assert "20 minutes" in burn.steps[0]
    assert any("No ice" in text for text in burn.never)


@pytest.mark.parametrize(
    ("caution", "items", "steps"),
    [
        ("sealed-goods", ["steel-bottle", "aluminium-bottle", "frosted-glass-mug"], []),
        ("left-alone", ["slate", "ceramic-tile"], ["warm-the-press-through", "wait-for-the-heat", "probe-the-platen"]),
        (
            "food-oven",
            ["phone-case-plastic", "steel-bottle"],
            ["hold-blanks-tighter-in-the-oven", "warm-the-blank-first"],
        ),
        ("hot-goods", ["drawstring-bag", "mouse-mat"], ["probe-the-platen", "judge-the-warmth-of-the-bed"]),
    ],
)
def test_a_caution_stands_where_it_is_needed(
    knowledge: Knowledge, caution: str, items: list[str], steps: list[str]
) -> None:
    known: dict[str, Check | Fix] = {**knowledge.fixes, **knowledge.checks}
    assert all(caution in knowledge.items[item].cautions for item in items)
    assert all(caution in known[step].cautions for step in steps)


def test_whatever_goes_into_an_oven_says_which(knowledge: Knowledge) -> None:
    for fix in knowledge.fixes.values():
        if any("oven" in re.findall("[a-z]+", step.lower()) for step in (fix.title, *fix.steps)):
            assert "food-oven" in fix.cautions, fix.id


def test_tape_is_heatproof_to_more_than_any_platen(knowledge: Knowledge) -> None:
    tape = [knowledge.checks["read-the-tape-roll"].outcome("heat-tape").looks, *knowledge.fixes["take-heat-tape"].steps]
    told = [float(figure) for text in tape for figure in re.findall(r"(\d+) °C", text)]
    assert told == [230.0, 230.0]
    assert max(item.settings.temperature[1] for item in knowledge.items.values() if item.settings) < 230.0


def test_the_water_in_cotton_is_what_it_takes_from_the_air(knowledge: Knowledge) -> None:
    """Morton and Hearle: 7 to 8 % at 65 % and 20 °C. 8.5 % is a commercial regain, set by convention (ASTM D1909)."""
    told = [each for each, text in texts(knowledge) if "7 to 8 " in text]
    assert {"damp-item", "faint-colour", "blotches", "poor-uptake", "colour-cast", "weigh-the-cloth"} <= set(told)
    assert {each for each, text in texts(knowledge) if "8.5" in text} == {"moisture-regain", "astm-d1909"}
    assert all(rule.basis != ("astm-d1909",) for defect in knowledge.defects.values() for rule in defect.rules)


def test_migration_rests_on_what_lies_at_the_surface(knowledge: Knowledge) -> None:
    """Dye-bath diffusion at 100 to 120 °C says nothing of a shelf: finish, soft coat and surplus dye move."""
    rules = {rule.cause: rule for rule in knowledge.defects["migration"].rules}
    assert all("sen-i-gakkaishi-1972" not in rule.basis for rule in rules.values())
    assert rules["stored-warm"].basis == ("common practice",)
    assert all(rules[cause].brings.value >= 0.25 for cause in ("cloth-finish", "poor-coating", "ink-load-high"))


def test_a_blend_pales_within_the_first_few_washes(knowledge: Knowledge) -> None:
    said = [text for each, text in texts(knowledge) if each in knowledge.care and "Expect a softer" in text]
    assert len(said) == 3
    assert all("after the first few washes" in text for text in said)


def test_the_paper_on_blends_can_be_found(knowledge: Knowledge) -> None:
    paper = knowledge.sources["heywood-lambert-1977"]
    assert paper.title == "Dye-transfer Printing Systems Relying on the Use of Substrate Pre-treatment"
    assert "doi 10.1111/j.1478-4408.1977.tb03343.x" in paper.says


def texts(knowledge: Knowledge) -> Iterator[tuple[str, str]]:
    """All that a person may read, each with the id of what says it."""
    for cause in knowledge.causes.values():
        yield cause.id, cause.about
    for defect in knowledge.defects.values():
        yield from ((defect.id, rule.why) for rule in defect.rules)
    for check in knowledge.checks.values():
        yield from ((check.id, text) for text in check.how)
    yield from ((term.id, term.means) for term in knowledge.glossary.values())
    yield from ((source.id, source.says) for source in knowledge.sources.values())
    for note in knowledge.care.values():
        yield from ((note.id, statement.text) for statement in note.statements)
