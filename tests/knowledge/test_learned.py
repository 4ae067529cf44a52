"""Single learnt numbers laid over entries: what they change, what they leave, and what is wrong with some."""

from collections.abc import Callable
from pathlib import Path

import pytest

from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.learned import unlearned
from diagnose.knowledge.loading import inspect, load
from diagnose.knowledge.model import SHIPPED, Knowledge
from diagnose.reasoning.network import network

Shop = Callable[[str, str], Path]

LEARNED = """\
learned:
  basis: this shop's cases
  cases: 41
  turns-up:
    dwell-short: 0.21
    platen-runs-cool:
      usually: seldom-ish
      when:
        - if: {item.family: cloth}
          turns-up: 0.3
        - if: {item.hard: true}
          turns-up: impossible
  brings:
    faint-colour: {platen-runs-cool: 0.5}
  shows:
    probe-the-platen:
      reads-low: {platen-runs-cool: 0.6}
  cures:
    set-heat-by-probe: {platen-runs-cool: 0.4}
  minutes:
    probe-the-platen: 9
    press-longer: 2.5
""".replace("seldom-ish", "rarely")


def loaded(*folders: Path) -> Knowledge:
    knowledge, problems = inspect(*folders)
    assert [str(problem) for problem in problems] == []
    assert knowledge is not None
    return knowledge


def test_each_number_takes_the_place_of_one(tiny: Path, shop: Shop) -> None:
    known, plain = loaded(tiny, shop("kb/learned.yaml", LEARNED)), loaded(tiny)
    assert known.causes["dwell-short"].turns_up.value == 0.21
    cool = known.causes["platen-runs-cool"]
    assert (cool.turns_up.word, [shape.turns_up.value for shape in cool.shapes]) == ("rarely", [0.3, 0.0])
    brings = {rule.cause: rule.brings.value for rule in known.defects["faint-colour"].rules}
    assert brings["platen-runs-cool"] == 0.5
    check = known.checks["probe-the-platen"]
    assert check.outcome("reads-low").shows["platen-runs-cool"].value == 0.6
    assert check.minutes == 9
    assert known.fixes["set-heat-by-probe"].cures["platen-runs-cool"].value == 0.4
    assert known.fixes["press-longer"].minutes == 2.5
    assert known.fixes["set-heat-by-probe"].minutes == plain.fixes["set-heat-by-probe"].minutes
    assert cool.title == plain.causes["platen-runs-cool"].title


def test_what_was_learnt_names_the_cases_as_its_basis(tiny: Path, shop: Shop) -> None:
    known = loaded(tiny, shop("kb/learned.yaml", LEARNED))
    assert known.causes["platen-runs-cool"].basis == ("common practice", "this shop's cases")
    assert known.causes["platen-runs-cool"].origin == SHIPPED
    assert known.causes["dwell-short"].basis.count("this shop's cases") == 1


def test_the_numbers_before_come_back(tiny: Path, shop: Shop) -> None:
    known, plain = loaded(tiny, shop("kb/learned.yaml", LEARNED)), loaded(tiny)
    back = unlearned(known)
    facts: dict[str, FactValue] = {"item.family": "cloth", "item.hard": False, "item.polyester": 65.0}
    assert network(back, facts) == network(plain, facts)
    assert network(known, facts) != network(plain, facts)
    assert {c.id: c.minutes for c in back.checks.values()} == {c.id: c.minutes for c in plain.checks.values()}
    assert unlearned(plain) is plain


def test_the_cache_keeps_what_was_there_before(tiny: Path, shop: Shop, tmp_path: Path) -> None:
    folders = tiny, shop("kb/learned.yaml", LEARNED)
    first, second = (load(*folders, cache_dir=tmp_path / "cache") for _ in range(2))
    assert first == second
    assert unlearned(second).causes["dwell-short"].turns_up.value == 0.08


RETIRED = "retire:\n  rules:\n    - {defect: faint-colour, cause: dwell-short}\n"
RULES = """\
adds-to: faint-colour
status: trial
date: 2026-11-24
rules:
  - {cause: dwell-short, if: {item.hard: true}, brings: 0.2, why: It is so., basis: common practice}
  - {cause: dwell-short, if: {item.hard: false}, brings: 0.4, why: It is so., basis: common practice}
"""


def brought(known: Knowledge) -> list[float]:
    return [rule.brings.value for rule in known.defects["faint-colour"].rules if rule.cause == "dwell-short"]


def test_numbers_come_on_top_of_the_shops_own_rules_each_by_its_condition(tiny: Path, shop: Shop) -> None:
    shop("kb/retired.yaml", RETIRED)
    folder = shop("rules/faint-colour.yaml", RULES)
    assert brought(loaded(tiny, folder)) == [0.2, 0.4]
    learned = "learned:\n  basis: this shop's cases\n  brings:\n    faint-colour:\n      dwell-short:\n"
    shop("kb/learned.yaml", learned + "        - {if: {item.hard: false}, brings: 0.6}\n")
    known = loaded(tiny, folder)
    assert brought(known) == [0.2, 0.6]
    assert brought(unlearned(known)) == [0.2, 0.4]


@pytest.mark.parametrize(
    ("part", "named"),
    [
        ("turns-up: {no-such: 0.1}", 'cause "no-such"'),
        ("brings: {faint-colour: {no-such: 0.1}}", 'rule from "no-such" to "faint-colour"'),
        ("shows: {probe-the-platen: {no-such: {dwell-short: 0.1}}}", 'outcome "no-such" of "probe-the-platen"'),
        ("shows: {no-such: {reads-low: {dwell-short: 0.1}}}", 'check "no-such"'),
        ("cures: {no-such: {dwell-short: 0.1}}", 'fix "no-such"'),
        ("cures: {press-longer: {platen-runs-cool: 0.1}}", 'fix "press-longer" with the cause "platen-runs-cool"'),
        ("minutes: {no-such: 3}", 'check or fix "no-such"'),
    ],
)
def test_numbers_that_belong_to_nothing(tiny: Path, shop: Shop, part: str, named: str) -> None:
    _, problems = inspect(tiny, shop("kb/learned.yaml", f"learned:\n  basis: this shop's cases\n  {part}\n"))
    assert {problem.code for problem in problems} == {"unknown-learned"}
    assert any(named in problem.wrong for problem in problems)
    assert all("presslore learn --apply" in problem.hint for problem in problems)
    assert all(problem.place.line == 3 for problem in problems)


@pytest.mark.parametrize(
    "part",
    ["turns-up: {dwell-short: 1.2}", "minutes: {press-longer: long}", "says: 3", "turns-up: {dwell-short: often-ish}"],
)
def test_a_broken_number_is_a_problem_with_its_place(tiny: Path, shop: Shop, part: str) -> None:
    _, problems = inspect(tiny, shop("kb/learned.yaml", f"learned:\n  basis: this shop's cases\n  {part}\n"))
    assert len(problems) == 1
    assert problems[0].place.line == 3
