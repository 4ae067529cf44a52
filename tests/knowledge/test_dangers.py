"""The words of a step call for cautions: those of a shop's own show, whether it names them or not."""

import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.knowledge.dangers import called_for, speaking
from diagnose.knowledge.loading import inspect, load
from diagnose.knowledge.model import Knowledge

FIX = (
    "fixes:\n  our-fix:\n    title: Our way\n    steps: [{}]\n    minutes: 1\n"
    "    cures: {{platen-runs-cool: likely}}\n{}"
)
BASIS = "    basis: common practice\n"


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return load()


def shown(folder: Path, steps: str, more: str = "") -> tuple[str, ...]:
    (folder / "kb").mkdir()
    (folder / "kb" / "own.yaml").write_text(FIX.format(steps, more) + BASIS, encoding="utf-8")
    knowledge, problems = inspect(Path(__file__).parents[2], folder)
    assert problems == []
    assert knowledge is not None
    return knowledge.fixes["our-fix"].cautions


@pytest.mark.parametrize(
    ("said", "caution"),
    [
        ("Set 205 °C.", "hot-platen"),
        ("Open the press at once.", "hot-platen"),
        ("Warm it in the oven.", "hot-platen"),
        ("Take the tile off while it is hot, then cool the tile in water.", "hot-goods"),
        ("Let the steaming sheet boil dry.", "steam"),
        ("Wipe the platen with acetone.", "solvent"),
        ("Wipe it with ace\u00adtone.", "solvent"),
        ("Wipe it with \uff21\uff23\uff25\uff34\uff2f\uff2e\uff25.", "solvent"),
        ("Brush it with paint thinner.", "solvent"),
        ("Bridge the cut-out.", "electricity"),
        ("Open the cover and pull the cable.", "electricity"),
        ("Scrape it off with a razor blade.", "sharp"),
        ("Tap the glass until it cracks.", "broken-glass"),
        ("Flush the heads with a syringe.", "ink-skin"),
        ("Smoke comes off: stay near.", "fumes"),
        ("Close the press on your hand.", "pinch"),
        ("Lift the platen off by hand.", "lifting"),
    ],
)
def test_words_that_call_for_a_caution(said: str, caution: str, knowledge: Knowledge) -> None:
    assert caution in called_for(knowledge.cautions, [said])
    assert speaking(knowledge.cautions[caution], [said])


def test_words_that_call_for_none(knowledge: Knowledge) -> None:
    for said in (
        "Bring them to the press room.",
        "Shut the door.",
        "Impress the customer.",
        "The photo is shot again.",
    ):
        assert called_for(knowledge.cautions, [said]) == ()


def test_a_shops_own_fix_shows_what_its_words_call_for(tmp_path: Path) -> None:
    assert shown(tmp_path, "Wipe it with acetone.") == ("solvent",)


def test_those_it_names_come_first(tmp_path: Path) -> None:
    assert shown(tmp_path, "Wipe it with acetone.", "    cautions: [fumes]\n") == ("fumes", "solvent")


def test_a_shop_may_say_that_none_applies(tmp_path: Path) -> None:
    assert shown(tmp_path, "Put heat tape on.", "    cautions: []\n") == ()


def test_what_ships_is_left_as_it_was_written(knowledge: Knowledge) -> None:
    assert any(set(called_for(knowledge.cautions, fix.steps)) - set(fix.cautions) for fix in knowledge.fixes.values())


def test_every_caution_of_a_step_has_its_words(knowledge: Knowledge) -> None:
    without = {one.id for one in knowledge.cautions.values() if not one.called_for_by}
    assert without == {"food-contact", "childrens-goods"}


@given(texts=st.lists(st.text(max_size=200), max_size=5))
def test_any_text_can_be_looked_at(texts: list[str], knowledge: Knowledge) -> None:
    assert set(called_for(knowledge.cautions, texts)) <= set(knowledge.cautions)


def test_a_text_without_end_is_looked_at_once(knowledge: Knowledge) -> None:
    began = time.perf_counter()
    for sign in ("close ", "heat", " ", "a\u0301", "-", "cut-"):
        called_for(knowledge.cautions, [sign * 100_000])
    assert time.perf_counter() - began < 60
