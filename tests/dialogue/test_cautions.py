"""The cautions before a fix: those of its own steps, of any press, and of the goods that the test piece is made of."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from diagnose.dialogue import moves as said
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.session import Session
from diagnose.dialogue.telling import cautions
from diagnose.knowledge.cautions import at_a_press, before, in_brief
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Fix, Item, Knowledge
from diagnose.knowledge.shop import Shop


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return load()


Pairs = list[tuple[Item, Fix, tuple[str, ...]]]


@pytest.fixture(scope="module")
def fitting(knowledge: Knowledge) -> Pairs:
    """Every item with every fix that may be done to it, and the cautions that stand before that fix."""
    return list(_pairs(knowledge))


def _pairs(knowledge: Knowledge) -> Iterator[tuple[Item, Fix, tuple[str, ...]]]:
    for item in knowledge.items.values():
        now = Consultation(knowledge, Shop(), Session((said.Pressed(item.id),)))
        for fix in knowledge.fixes.values():
            if fix.condition.may_hold(item.facts):
                yield item, fix, cautions(now, fix)


def test_no_fix_omits_a_caution_of_its_own_or_of_the_goods(fitting: Pairs) -> None:
    pairs, omitted = 0, Counter[str]()
    for item, fix, told in fitting:
        pairs += 1
        omitted.update({*item.cautions, *fix.cautions} - set(told))
    assert pairs > 9_000
    assert omitted == Counter()


def test_each_caution_is_told_once_and_the_hottest_first(knowledge: Knowledge, fitting: Pairs) -> None:
    order = list(knowledge.cautions)
    for item, fix, told in fitting:
        assert list(told) == [one for one in order if one in told], (item.id, fix.id)


def test_a_fix_at_a_desk_names_the_test_press_in_brief(knowledge: Knowledge) -> None:
    mug, known = knowledge.items["mug"], knowledge.cautions
    desk, press = knowledge.fixes["mirror-the-print"], knowledge.fixes["tighten-the-wrap"]
    told = before(known, desk, mug)
    assert {"hot-platen", "pinch", "hot-goods", "broken-glass"} <= set(told)
    assert in_brief(known, desk, told) == set(told)
    assert in_brief(known, press, before(known, press, mug)) == set()


def test_what_is_the_fixs_own_is_never_in_brief(knowledge: Knowledge, fitting: Pairs) -> None:
    for _, fix, told in fitting:
        assert not in_brief(knowledge.cautions, fix, told) & set(fix.cautions)


def test_only_a_check_that_presses_something_brings_the_cautions_of_a_press(knowledge: Knowledge) -> None:
    tile, known = knowledge.items["ceramic-tile"], knowledge.cautions
    assert "broken-glass" in before(known, knowledge.checks["press-taped-all-round"], tile)
    for cold in ("press-carbon-sheet", "probe-the-platen", "close-and-open-on-marks"):
        assert set(before(known, knowledge.checks[cold], tile)) == set(knowledge.checks[cold].cautions)


def test_goods_that_nobody_named_are_taken_to_be_hot(knowledge: Knowledge) -> None:
    known, towel = knowledge.cautions, knowledge.items["tea-towel-polyester"]
    assert at_a_press(known) == ("hot-platen", "pinch", "hot-goods", "fumes")
    assert at_a_press(known, towel) == ("hot-platen", "pinch", "fumes")
    assert at_a_press(known, replace(towel, cautions=())) == at_a_press(known)
    assert at_a_press(known, replace(towel, cautions=("steam",))) == ("hot-platen", "pinch", "steam")


def test_a_shop_that_words_a_caution_anew_still_reads_it_at_every_press(tmp_path: Path) -> None:
    (tmp_path / "kb").mkdir()
    said = "cautions:\n  pinch: {title: Mind your hands, text: It bites., basis: common practice}\n"
    (tmp_path / "kb" / "own.yaml").write_text(said, encoding="utf-8")
    known = load(shipped_folder(), tmp_path).cautions
    assert known["pinch"].title == "Mind your hands"
    assert "pinch" in at_a_press(known)
