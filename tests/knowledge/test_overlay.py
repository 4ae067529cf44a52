"""A shop's folder laid over the knowledge that ships."""

from collections.abc import Callable
from pathlib import Path

import pytest

from diagnose.knowledge.loading import inspect
from diagnose.knowledge.model import SHIPPED, THIS_SHOP, Knowledge

Shop = Callable[[str, str], Path]

PLATEN = "  platen:\n    term: Platen\n    means: Our big red one.\n    basis: common practice\n"
ADDED = """\
adds-to: faint-colour
said: [milky]
status: trial
date: 2026-11-24
rules:
  - cause: draughty-door
    brings: likely
    why: The quay wind cools the platen's front edge.
    basis: this shop's cases
"""
CAUSE = """\
causes:
  draughty-door:
    title: The door to the quay stands open
    family: heat
    turns-up: rarely
    about: Wind cools the platen.
    basis: this shop's cases
checks:
  look-at-the-door:
    title: Look at the door
    kind: look
    asks: Is the door shut?
    how: [Look.]
    needs: []
    minutes: 1
    outcomes:
      shut: {looks: Shut, said: [shut]}
      open: {looks: Open, said: [open], shows: {draughty-door: very likely}, otherwise: rarely}
    basis: common practice
fixes:
  shut-the-door:
    title: Shut the door
    steps: [Shut it.]
    minutes: 1
    cures: {draughty-door: very likely}
    basis: common practice
"""


def loaded(*folders: Path) -> Knowledge:
    knowledge, problems = inspect(*folders)
    assert [str(problem) for problem in problems] == []
    assert knowledge is not None
    return knowledge


def test_a_folder_without_anything_changes_nothing(tiny: Path, tmp_path: Path) -> None:
    (tmp_path / "shop").mkdir()
    assert loaded(tiny, tmp_path / "shop").causes == loaded(tiny).causes


def test_the_same_id_overrides(tiny: Path, shop: Shop) -> None:
    terms = loaded(tiny, shop("kb/words.yaml", "glossary:\n" + PLATEN)).glossary
    assert (terms["platen"].means, terms["platen"].origin) == ("Our big red one.", THIS_SHOP)
    assert terms["dwell"].origin == SHIPPED


def test_a_shop_adds_causes_and_rules(tiny: Path, shop: Shop) -> None:
    shop("kb/door.yaml", CAUSE)
    knowledge = loaded(tiny, shop("rules/faint-colour.yaml", ADDED))
    defect = knowledge.defects["faint-colour"]
    assert [rule.cause for rule in defect.rules] == ["platen-runs-cool", "dwell-short", "draughty-door"]
    assert [rule.origin for rule in defect.rules] == [SHIPPED, SHIPPED, THIS_SHOP]
    assert (defect.origin, defect.said[-1]) == (SHIPPED, "milky")
    assert knowledge.causes["draughty-door"].origin == THIS_SHOP


def test_an_added_rule_takes_the_place_of_one_on_the_same_matter(tiny: Path, shop: Shop) -> None:
    text = ADDED.replace("draughty-door", "platen-runs-cool")
    rules = loaded(tiny, shop("rules/faint-colour.yaml", text)).defects["faint-colour"].rules
    assert [(rule.cause, rule.origin) for rule in rules] == [
        ("dwell-short", SHIPPED),
        ("platen-runs-cool", THIS_SHOP),
    ]


def test_a_retired_cause_takes_along_what_hangs_on_it(tiny: Path, shop: Shop) -> None:
    knowledge = loaded(tiny, shop("kb/retired.yaml", "retire:\n  causes: [dwell-short]\n"))
    assert "dwell-short" not in knowledge.causes
    assert [rule.cause for rule in knowledge.defects["faint-colour"].rules] == ["platen-runs-cool"]
    assert knowledge.checks["probe-the-platen"].outcome("timer-jumps").shows == {}
    assert "press-longer" not in knowledge.fixes
    assert knowledge.defects["faint-colour"].cases == ()


def test_a_retired_item_takes_its_worked_cases_along(tiny: Path, shop: Shop) -> None:
    knowledge = loaded(tiny, shop("kb/retired.yaml", "retire:\n  items: [tea-towel]\n"))
    assert knowledge.items == {}
    assert knowledge.defects["faint-colour"].cases == ()


def test_a_retired_rule(tiny: Path, shop: Shop) -> None:
    text = "retire:\n  rules:\n    - {defect: faint-colour, cause: dwell-short}\n"
    _, problems = inspect(tiny, shop("kb/retired.yaml", text))
    assert [problem.code for problem in problems] == ["cause-without-rule"]


def test_a_retired_fix_that_leaves_a_cause_without_one(tiny: Path, shop: Shop) -> None:
    _, problems = inspect(tiny, shop("kb/retired.yaml", "retire:\n  fixes: [press-longer]\n"))
    assert [problem.code for problem in problems] == ["cause-without-fix"]


def test_two_files_may_retire_the_same(tiny: Path, shop: Shop) -> None:
    text = "retire:\n  causes: [dwell-short]\n  rules: [{defect: faint-colour, cause: dwell-short}]\n"
    shop("kb/again.yaml", text + "  defects: [faint-colour]\n")
    knowledge, _ = inspect(tiny, shop("kb/retired.yaml", text + "  defects: [faint-colour]\n"))
    assert knowledge is None or "dwell-short" not in knowledge.causes


def test_retiring_what_is_not_there(tiny: Path, shop: Shop) -> None:
    knowledge, problems = inspect(tiny, shop("kb/retired.yaml", "retire:\n  causes: [dwell-shrt]\n"))
    assert knowledge is None
    assert [problem.hint for problem in problems] == ["did you mean dwell-short?"]


def test_a_shops_words_have_the_numbers_of_the_scale_that_ships(tiny: Path, shop: Shop) -> None:
    knowledge = loaded(tiny, shop("kb/all.yaml", CAUSE.replace("turns-up: rarely", "turns-up: likely")),
                       shop("rules/faint-colour.yaml", ADDED))  # fmt: skip
    assert knowledge.causes["draughty-door"].turns_up.value == 0.71


def test_sentences_heard_in_a_shop_are_added(tiny: Path, shop: Shop) -> None:
    ways = tiny / "kb" / "ways" / "defects" / "faint-colour.txt"
    ways.parent.mkdir(parents=True)
    ways.write_text("Like weak tea.\nSo light.\n", encoding="utf-8")
    knowledge = loaded(tiny, shop("kb/ways/defects/faint-colour.txt", "So light.\nNo strength in it.\n"))
    assert knowledge.heard == {"faint-colour": ("Like weak tea.", "So light.", "No strength in it.")}


FURTHER = """\
causes:
  draughty-door:
    title: The door to the quay stands open
    family: heat
    turns-up: rarely
    about: Wind cools the platen.
    basis: this shop's cases
adds-to:
  fixes:
    set-heat-by-probe: {draughty-door: rarely}
  checks:
    probe-the-platen:
      reads-low: {draughty-door: likely}
"""


def test_a_shop_adds_causes_to_known_fixes_and_checks(tiny: Path, shop: Shop) -> None:
    shop("kb/door.yaml", FURTHER)
    knowledge = loaded(tiny, shop("rules/faint-colour.yaml", ADDED))
    fix, check = knowledge.fixes["set-heat-by-probe"], knowledge.checks["probe-the-platen"]
    assert {cause: chance.word for cause, chance in fix.cures.items()} == {
        "platen-runs-cool": "very likely",
        "draughty-door": "rarely",
    }
    assert check.outcome("reads-low").shows["draughty-door"].value == 0.71
    assert (fix.origin, check.origin) == (SHIPPED, SHIPPED)
    assert check.how == loaded(tiny).checks["probe-the-platen"].how


def test_a_cause_of_a_shops_own_needs_no_check(tiny: Path, shop: Shop) -> None:
    shop("kb/door.yaml", FURTHER[: FURTHER.index("  checks:")])
    assert "draughty-door" in loaded(tiny, shop("rules/faint-colour.yaml", ADDED)).causes


@pytest.mark.parametrize(
    ("old", "new", "code", "words"),
    [
        ("set-heat-by-probe", "set-heat-by-prob", "unknown-fix", "did you mean set-heat-by-probe?"),
        ("probe-the-platen", "probe-a-platen", "unknown-check", "did you mean probe-the-platen?"),
        ("reads-low", "reads-lw", "unknown-outcome", "did you mean reads-low?"),
        ("{draughty-door: rarely}", "{draughty-dor: rarely}", "unknown-cause", "did you mean draughty-door"),
        ("reads-low", "agrees", "loud-quiet-outcome", "one of reads-low, timer-jumps"),
        (
            "reads-low: {draughty-door: likely}",
            "reads-low: {draughty-door: likely}\n      timer-jumps: {draughty-door: likely}",
            "chances-above-one",
            "a sum of 1.42",
        ),
    ],
)
def test_what_is_wrong_with_an_addition_is_said_at_its_place(
    tiny: Path, shop: Shop, old: str, new: str, code: str, words: str
) -> None:
    shop("kb/door.yaml", FURTHER.replace(old, new))
    _, problems = inspect(tiny, shop("rules/faint-colour.yaml", ADDED))
    assert [problem.code for problem in problems] == [code]
    assert problems[0].place.file.endswith("kb/door.yaml")
    assert problems[0].place.line > 8
    assert words in str(problems[0])


READING = """readings:
  platen-gap:
    title: The platen against its display
    how: [Hold a probe on the platen.]
    minutes: 5
    error: {error}
    settles: [probe-the-platen]
    speaks:
      platen-runs-cool: {{under: [{{at: -4, there: .9, otherwise: .1}}]}}
      dwell-short: {{under: [{{at: -9, there: .9, otherwise: .5}}]}}
    basis: common practice
"""


def test_a_shops_reading_takes_the_others_place(tiny: Path, shop: Shop) -> None:
    (tiny / "kb" / "readings.yaml").write_text(READING.format(error=2), encoding="utf-8")
    knowledge = loaded(tiny, shop("kb/own.yaml", READING.format(error=5)))
    assert knowledge.readings["platen-gap"].error == 5
    assert knowledge.readings["platen-gap"].origin == "this shop"


def test_a_retired_cause_leaves_the_readings_and_a_retired_reading_is_gone(tiny: Path, shop: Shop) -> None:
    (tiny / "kb" / "readings.yaml").write_text(READING.format(error=2), encoding="utf-8")
    less = loaded(tiny, shop("kb/retired.yaml", "retire:\n  causes: [dwell-short]\n"))
    assert set(less.readings["platen-gap"].speaks) == {"platen-runs-cool"}
    gone = loaded(tiny, shop("kb/retired.yaml", "retire:\n  readings: [platen-gap]\n"))
    assert gone.readings == {}
