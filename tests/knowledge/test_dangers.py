"""The words of a step call for cautions: those of a shop's own show, whether it names them or not."""

import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.knowledge.dangers import STANDING, called_for, speaking
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
        ("Wipe with ace\u034ftone.", "solvent"),
        ("Wipe with ace\u115ftone.", "solvent"),
        ("Wipe with ace\ufe0ftone.", "solvent"),
        ("Wipe with \u1d00\u1d04\u1d07\u1d1b\u1d0f\u0274\u1d07.", "solvent"),
        ("Wipe with \u0251cetone.", "solvent"),
        ("Wipe with ac\u1eb9tone.", "solvent"),
        ("Wipe with acet0ne.", "solvent"),
        ("Wipe with ac\u0435tone.", "solvent"),
        ("Wipe with a-cetone.", "solvent"),
        ("Wipe with a c e t o n e.", "solvent"),
        ("Wipe with ace tone.", "solvent"),
        ("Make it h\u043et.", "hot-platen"),
        ("Wipe with naphtha.", "solvent"),
        ("Wipe with white gas.", "solvent"),
        ("Wipe with MEK.", "solvent"),
        ("Use kerosene.", "solvent"),
        ("Rub with toluene.", "solvent"),
        ("Use IPA.", "solvent"),
        ("Wipe with lye.", "ink-skin"),
        ("Pour drain opener on it.", "ink-skin"),
        ("Use sulphuric acid.", "ink-skin"),
        ("Use ammonia.", "ink-skin"),
        ("Pour molten wax on the tile.", "hot-platen"),
        ("Set fire to the fluff.", "hot-platen"),
        ("Burn the fluff off with a candle.", "hot-platen"),
        ("Use a lighter.", "hot-platen"),
        ("Use a blowlamp.", "hot-platen"),
        ("Put it on the stove.", "hot-platen"),
        ("Raise it to 260C.", "hot-platen"),
        ("Raise it to 500 \u00b0F.", "hot-platen"),
        ("Raise it to 260\u00baC.", "hot-platen"),
        ("Scald it.", "steam"),
        ("Pour water on the glowing tile.", "steam"),
        ("Touch the 230 V terminals.", "electricity"),
        ("Bridge the live contacts.", "electricity"),
        ("Open the housing.", "electricity"),
        ("Short the thermal cutout.", "electricity"),
        ("Put your hand under while it shuts.", "pinch"),
        ("Take the guard off.", "pinch"),
        ("Bypass the interlock.", "pinch"),
        ("Carry the machine by yourself.", "lifting"),
        ("Lift the upper plate off alone.", "lifting"),
        ("Use a craft knife.", "sharp"),
        ("Slit the sheet.", "sharp"),
        ("Snip it.", "sharp"),
        ("Drink from the pressed face of the mug.", "food-contact"),
        ("Sell it as a dinner plate.", "food-contact"),
        ("Give it to a baby to chew.", "childrens-goods"),
        ("Heat the bottle with its lid on.", "sealed-goods"),
        ("Press the snow globes.", "sealed-goods"),
        ("Let the press stand and walk away.", "left-alone"),
        ("Leave it running overnight.", "left-alone"),
        ("Warm it in the kitchen oven.", "food-oven"),
        ("Bake it in an air fryer.", "food-oven"),
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
        "Choose lighter cloth of 3 x 4 cm.",
        "Would he at once say so?",
        "50 mg in 20 ml, 12 times.",
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
    assert without == {STANDING}


def test_what_ships_would_not_call_for_everything_if_it_were_a_shops_own(knowledge: Knowledge) -> None:
    """Cautions that stand at every step are read at none."""
    fixes = [called_for(knowledge.cautions, (fix.title, *fix.steps)) for fix in knowledge.fixes.values()]
    checks = [called_for(knowledge.cautions, (c.title, c.asks, *c.how, *c.needs)) for c in knowledge.checks.values()]
    called = [*fixes, *checks]
    assert sum(map(len, called)) < 1.5 * len(called)
    assert max(map(len, called)) <= 4
    for caution in set(knowledge.cautions) - {"hot-platen"}:
        assert sum(caution in one for one in called) < len(called) / 8, caution


BUNDLE = """causes:
  odd-cause:
    title: The fluff is on fire
    family: heat
    turns-up: rarely
    about: {about}
    basis: another shop's cases
fixes:
  odd-fix:
    title: See to it
    steps: [Do as is said.]
    minutes: 1
    cures: {{odd-cause: likely}}
    {more}
    basis: another shop's cases
checks:
  odd-check:
    title: See whether it is so
    kind: try
    asks: Is it?
    how: [Look.]
    needs: [{needs}]
    minutes: 1
    basis: another shop's cases
    outcomes:
      quiet: {{looks: Nothing, said: [nothing at all]}}
      loud: {{looks: {looks}, said: [it does], shows: {{odd-cause: likely}}, otherwise: rarely}}
"""
RULES = """adds-to: faint-colour
status: trial
date: 2026-11-01
rules:
  - {{cause: odd-cause, brings: seldom, why: {why}, basis: another shop's cases}}
"""


def taken(
    folder: Path, about: str = "So", needs: str = "air", looks: str = "So", why: str = "So", more: str = ""
) -> Knowledge:
    """What is known with a bundle that was taken, which says such things."""
    for part, text in (
        ("kb", BUNDLE.format(about=about, needs=needs, looks=looks, more=more)),
        ("rules", RULES.format(why=why)),
    ):
        (folder / part / "taken-0123").mkdir(parents=True)
        (folder / part / "taken-0123" / "entries.yaml").write_text(text, encoding="utf-8")
    knowledge, problems = inspect(Path(__file__).parents[2], folder)
    assert knowledge is not None, problems
    return knowledge


def test_what_is_needed_and_how_it_looks_calls_for_cautions_too(tmp_path: Path) -> None:
    found = taken(tmp_path, needs="a can of acetone", looks="It is cut with a razor").checks["odd-check"].cautions
    assert {"solvent", "sharp"} <= set(found)


@pytest.mark.parametrize("field", ["about", "why"])
def test_what_a_bundle_says_of_a_cause_calls_for_cautions_at_its_fixes(field: str, tmp_path: Path) -> None:
    said = {field: "Pour acetone on it and bridge the fuse."}
    assert {"solvent", "electricity"} <= set(taken(tmp_path, **said).fixes["odd-fix"].cautions)


def test_what_came_in_a_bundle_carries_a_caution_of_its_own_until_it_is_settled(tmp_path: Path) -> None:
    known = taken(tmp_path / "one", more="cautions: []")
    assert known.fixes["odd-fix"].cautions[0] == known.checks["odd-check"].cautions[0] == STANDING
    assert "Nobody here has tried this." in known.cautions[STANDING].text
    settled = taken(tmp_path / "two", more="status: settled")
    assert STANDING not in settled.fixes["odd-fix"].cautions


@given(texts=st.lists(st.text(max_size=200), max_size=5))
def test_any_text_can_be_looked_at(texts: list[str], knowledge: Knowledge) -> None:
    assert set(called_for(knowledge.cautions, texts)) <= set(knowledge.cautions)


def test_a_text_without_end_is_looked_at_once(knowledge: Knowledge) -> None:
    began = time.process_time()
    for sign in ("close ", "heat", " ", "a\u0301", "-", "cut-"):
        called_for(knowledge.cautions, [sign * 100_000])
    assert time.process_time() - began < 60
