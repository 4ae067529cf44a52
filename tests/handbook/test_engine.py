"""The page's engine says what the command line says: the same beliefs, next step, reasons and sentences."""

import gzip
import json
import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.dialogue import moves as said
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Move
from diagnose.dialogue.rehearsal import rehearse
from diagnose.dialogue.saving import to_json
from diagnose.dialogue.session import Session
from diagnose.foresight.last_good import GOODS
from diagnose.handbook.page.compiled import engine_files, engine_script, joined, script
from diagnose.handbook.page.shared import OWNED, shared
from diagnose.knowledge.conditions import ALWAYS, Condition, Test
from diagnose.knowledge.model import SETTLED, TRIAL, Chance, Check, Fact, Knowledge, Shape, Spends, Wait
from diagnose.knowledge.shop import PRESS_NAME, Known, Press, Rates, Shop
from diagnose.reasoning.beliefs import WIDEST, believe
from diagnose.speech.amounts import fix_taking, in_words, minutes, money, percent, side, taking
from tests.dialogue import workshop
from tests.dialogue.saved import from_json
from tests.handbook.browser import (
    another_shop,
    beliefs_here,
    by_command,
    by_page,
    call,
    differences,
    engine,
    knowledge,
    shipped_engine,
)
from tests.trials import daily

KNOWN = knowledge()


def same(session: Session) -> None:
    """Both sides know the same of this session, and the page saves it so that it can be resumed here."""
    found = by_page(session)
    assert differences(by_command(Consultation(KNOWN, Shop(), session)), found) == []
    assert from_json(found["saved"])[0] == session


# --- anything a person may say of the shipped knowledge ---


def _values(fact: Fact) -> st.SearchStrategy[Any]:
    if fact.one_of:
        return st.sampled_from(fact.one_of)
    if fact.yes_no:
        return st.booleans()
    least, most = fact.least or 0.0, fact.most or 100.0
    return st.integers(int(least), int(most)) | st.floats(least, most) | st.sampled_from((50.0, 65, 80.0, 3.0))


facts = st.fixed_dictionaries({}, optional={fact.id: _values(fact) for fact in KNOWN.facts.values()})
few_facts = facts.map(lambda told: dict(list(told.items())[:3]))
items = st.sampled_from(("", *KNOWN.items))
defects = st.sampled_from(sorted(KNOWN.defects))
fixes = st.sampled_from(sorted(KNOWN.fixes))
checks = st.sampled_from(list(KNOWN.checks.values()))


def _answers(check: Check) -> st.SearchStrategy[Move]:
    outcomes = st.sampled_from([outcome.id for outcome in check.outcomes])
    return st.builds(said.Answered, st.just(check.id), outcomes, st.booleans())


answers = checks.flatmap(_answers)
told_figures = st.fixed_dictionaries(
    {},
    optional={
        "set": st.floats(150, 230),
        "dwell": st.floats(5, 600),
        "probe": st.floats(20, 250),
        "watch": st.floats(5, 600),
        "sheets": st.integers(0, 8).map(float),
        "thickness": st.floats(2e-4, 0.02),
        "strip": st.floats(100, 230),
        "ground.l": st.just(90.0),
        "ground.a": st.just(0.0),
        "ground.b": st.floats(0, 20),
        "blank.l": st.just(95.0),
        "blank.a": st.just(0.5),
        "blank.b": st.just(2.0),
        **{f"{name}.{axis}": st.floats(0, 60) for name in ("proof", "print") for axis in "lab"},
    },
)
measured = st.builds(said.Measured, told_figures, st.just("") | checks.map(lambda check: check.id))
told_words = st.sampled_from(("green box", "Green  box", "blue"))
told_goods = st.fixed_dictionaries({}, optional=dict.fromkeys(GOODS, told_words))
remembered: st.SearchStrategy[Move] = st.one_of(
    st.builds(said.LastGood, st.sampled_from(("2026-11-12", "2026-01-03", "long ago")), told_figures, told_goods),
    st.builds(said.FoundLately, st.sampled_from(sorted(KNOWN.causes)), st.just("2026-11-20"), st.floats(1.0, 4.0)),
    st.builds(said.Used, told_goods),
)
moves: st.SearchStrategy[Move] = st.one_of(
    answers,
    answers,
    measured,
    st.builds(said.Named, st.sampled_from(sorted(KNOWN.causes))),
    remembered,
    st.builds(said.CannotTell, checks.map(lambda check: check.id)),
    st.builds(said.CannotDo, fixes),
    st.builds(said.DidNotSee, st.tuples(defects)),
    st.builds(said.Saw, st.tuples(defects)),
    st.builds(said.TriedFix, fixes, st.sampled_from(("", "better", "same"))),
    st.builds(said.TriedFix, fixes, st.sampled_from(("better", "")), st.tuples(defects)),
    st.builds(said.Pressed, items, few_facts),
)
endings: st.SearchStrategy[tuple[Move, ...]] = st.sampled_from(
    ((), (), (), (said.HandedOver(),), (said.Cured(),), (said.Cured(min(KNOWN.fixes)),))
)
openings = st.tuples(
    st.builds(said.Pressed, items, few_facts),
    st.builds(said.Saw, st.lists(defects, min_size=1, max_size=3, unique=True).map(tuple)),
)


@daily(10, of=60)
@given(
    opening=openings,
    good=st.builds(said.LastGood, st.just("2026-11-12"), told_figures, told_goods),
    told=st.tuples(measured, st.builds(said.Used, told_goods)),
    middle=st.lists(moves, max_size=3),
)
def test_what_the_shop_knows_weighs_the_same(
    opening: tuple[Move, ...], good: Move, told: tuple[Move, ...], middle: list[Move]
) -> None:
    same(Session((*opening, good, *told, *middle)))


@daily(25, of=60)
@given(opening=openings, middle=st.lists(moves, max_size=7), ending=endings)
def test_any_session_comes_to_the_same(opening: tuple[Move, ...], middle: list[Move], ending: tuple[Move, ...]) -> None:
    same(Session((*opening, *middle, *ending)))


@daily(8, of=25)
@given(item=items, told=few_facts, truth=st.sets(st.sampled_from(sorted(KNOWN.causes)), min_size=1, max_size=2))
def test_a_whole_dialogue_takes_the_same_way(item: str, told: dict[str, Any], truth: set[str]) -> None:
    start = Consultation(KNOWN, Shop(), Session((said.Pressed(item, told),)))
    brought = [d.id for d in KNOWN.defects.values() if any(rule.cause in truth for rule in d.rules)]
    seen = Random(len(brought)).sample(sorted(brought), min(2, len(brought)))
    if not seen:
        return
    start = start.then(start.session.make(said.Saw(tuple(seen))))
    for turn in rehearse(start, frozenset(truth)):
        assert differences(by_command(turn.consultation), by_page(turn.consultation.session)) == []


# --- extremes ---

EXTREMES: dict[str, tuple[Move, ...]] = {
    "nothing at all": (),
    "nothing seen": (said.Pressed("", {"item.polyester": 0}),),
    "only what was not seen": (said.DidNotSee(tuple(KNOWN.defects)),),
    "seen, then not, then seen": (
        said.Saw(("ghosting",)),
        said.DidNotSee(("ghosting", "haze")),
        said.Saw(("haze",)),
    ),
    "every fix set aside": (said.Saw(("ghosting",)), *(said.CannotDo(fix) for fix in KNOWN.fixes)),
    "every check closed": (said.Saw(("ghosting",)), *(said.CannotTell(check) for check in KNOWN.checks)),
    "the same fix over and over": (
        said.Saw(("faint-colour", "ghosting")),
        *(said.TriedFix(fix, change) for fix in list(KNOWN.fixes)[:2] for change in ("same", "better", "", "better")),
    ),
    "gone twice": (
        said.Saw(("faint-colour", "ghosting")),
        *(said.TriedFix(fix, "better", ("ghosting", "haze")) for fix in list(KNOWN.fixes)[:2]),
    ),
    "all gone": (said.Saw(("ghosting",)), said.TriedFix(next(iter(KNOWN.fixes)), "better", ("ghosting",))),
    "answers changed": tuple(
        said.Answered(check.id, outcome.id)
        for check in list(KNOWN.checks.values())[:3]
        for outcome in (*check.outcomes, check.outcomes[0])
    ),
    "facts of odd kinds": (
        said.Pressed("", {"item.polyester": True, "item.hard": 1, "item.family": "brass", "item.thickness": -0.5}),
        said.Saw(("faint-colour",)),
    ),
}


@pytest.mark.parametrize("name", EXTREMES)
def test_extremes_come_to_the_same(name: str) -> None:
    same(Session(EXTREMES[name]))


@pytest.mark.parametrize("number", [6, 12, 24, len(KNOWN.defects)])
def test_much_seen_at_once_is_believed_alike(number: int) -> None:
    random = Random(number)
    seen = said.Saw(tuple(random.sample(sorted(KNOWN.defects), number)))
    told = (_one_answer(random, check) for check in random.sample(list(KNOWN.checks.values()), 6))
    _believed_alike(Session((seen, *told)), WIDEST)


@daily(20, of=40)
@given(opening=openings, middle=st.lists(moves, min_size=2, max_size=7), widest=st.integers(1, 5))
def test_bounds_are_alike(opening: tuple[Move, ...], middle: list[Move], widest: int) -> None:
    _believed_alike(Session((*opening, *middle)), widest)


def _believed_alike(session: Session, widest: int) -> None:
    now = Consultation(KNOWN, Shop(), session)
    found = json.loads(str(shipped_engine().call("believed", to_json(session, "v"), widest)))
    assert differences(beliefs_here(believe(now.net, now.evidence, widest)), found) == []


def _one_answer(random: Random, check: Check) -> Move:
    return said.Answered(check.id, random.choice(check.outcomes).id)


# --- another knowledge, another shop ---


@daily(20, of=40)
@given(session=workshop.sessions)
def test_another_knowledge_and_dear_paper(session: Session) -> None:
    shop = Shop(currency="EUR", rates=Rates(minute=1.25, paper=2.5, help=40.0, help_minutes=30.0, asking=0.5))
    now = Consultation(workshop.KNOWLEDGE, shop, session)
    found = by_page(session, _workshop(shop), workshop.KNOWLEDGE.version)
    assert differences(by_command(now), found) == []


@daily(20, of=40)
@given(session=workshop.sessions, waiting=st.sampled_from((None, 0.0, 0.2)))
def test_steps_that_wait_are_planned_and_told_alike(session: Session, waiting: float | None) -> None:
    known, shop = _waiting(), Shop(rates=Rates(waiting=waiting))
    now = Consultation(known, shop, session)
    assert differences(by_command(now), by_page(session, _world_of(waiting), known.version)) == []


@cache
def _waiting() -> Knowledge:
    """The workshop's knowledge, in which most steps wait, minutes or days."""
    known = workshop.KNOWLEDGE
    checks = {key: replace(check, waits=Wait(minutes=60.0, what=key)) for key, check in known.checks.items()}
    fixes = {
        key: replace(fix, waits=Wait(days=number % 3, what=key if number % 3 else ""))
        for number, (key, fix) in enumerate(known.fixes.items())
    }
    return replace(known, version="waiting", checks={**checks, "feel": known.checks["feel"]}, fixes=fixes)


@cache
def _world_of(waiting: float | None) -> Any:
    return engine(_waiting(), Shop(rates=Rates(waiting=waiting)))


# --- the shop's presses ---


def _knowledge_of(presses: Mapping[str, Press]) -> Knowledge:
    """The workshop's knowledge in a shop with these presses: damp towels are impossible on tiles, and a sheet slips on
    one press alone."""
    named = Fact(id=PRESS_NAME, title="Press", asks="-", one_of=tuple(presses), place=workshop.HERE)
    on_tiles = Shape(condition=_if("item.family", "ceramic"), turns_up=Chance(0.0))
    damp, pale = workshop.KNOWLEDGE.causes["damp-towel"], workshop.KNOWLEDGE.defects["pale"]
    slips = replace(pale.rules[0], cause="sheet-slips", condition=_if(PRESS_NAME, "left"))
    return replace(
        workshop.KNOWLEDGE,
        facts={**workshop.KNOWLEDGE.facts, **({PRESS_NAME: named} if presses else {})},
        causes={**workshop.KNOWLEDGE.causes, damp.id: replace(damp, shapes=(on_tiles,))},
        defects={**workshop.KNOWLEDGE.defects, pale.id: replace(pale, rules=(*pale.rules, slips))},
    )


def _if(fact: str, value: str) -> Condition:
    return Condition((Test(fact, (value,)),))


def _press_called(name: str) -> st.SearchStrategy[Press]:
    known = st.builds(
        Known,
        cause=st.sampled_from(sorted(workshop.KNOWLEDGE.causes)),
        turns_up=st.builds(Chance, st.sampled_from((0.0, 1.0)) | st.floats(0.0, 1.0)),
        since=st.sampled_from(("", "March")),
        note=st.sampled_from(("runs cool", "leaks <steam> & “drips”")),
    )
    several = st.lists(known, max_size=3, unique_by=lambda each: each.cause).map(tuple)
    return st.builds(Press, id=st.just(name), title=st.just(f"The {name} one"), facts=workshop.facts, known=several)


presses = st.sets(st.sampled_from(("left", "right", "old"))).flatmap(
    lambda names: st.fixed_dictionaries({name: _press_called(name) for name in sorted(names)})
)
rates = st.builds(Rates, minute=st.floats(0.1, 3.0), blank=st.floats(0.0, 20.0), help=st.floats(5.0, 300.0))
shops = st.builds(Shop, currency=st.sampled_from(("", "EUR")), rates=rates, presses=presses)


@settings(max_examples=120, deadline=None)
@given(shop=shops, session=workshop.sessions, named=st.sampled_from(("", "left")))
def test_any_press_of_any_shop_comes_to_the_same(shop: Shop, session: Session, named: str) -> None:
    """Random presses with what is known of them, random items, facts, evidence and figures."""
    known = _knowledge_of(shop.presses)
    if named and shop.presses:
        session = Session((said.Pressed("", {PRESS_NAME: named}), *session.moves))
    world = another_shop(known, shop)
    found = by_page(session, world, known.version)
    assert differences(by_command(Consultation(known, shop, session)), found) == []
    assert from_json(found["saved"])[0] == session


COOL = Known(cause="platen-runs-cool", turns_up=Chance(0.75), since="March", note="runs 6 °C cool")
TWO = Shop(
    presses={
        "left": Press(id="left", title="By the window", facts={"press.kind": "swing-away"}, known=(COOL,)),
        "right": Press(id="right", title="The big press", facts={"press.kind": "clamshell"}),
    }
)


@pytest.mark.parametrize(
    ("press", "leads", "least"), [("left", "platen-runs-cool", 0.75), ("right", "dwell-short", 0.1), ("", "", 0.1)]
)
def test_a_press_that_runs_cool_is_believed_to_on_both_sides(press: str, leads: str, least: float) -> None:
    session = Session((said.Pressed("cushion-cover", {}, press), said.Saw(("faint-colour",))))
    found = by_page(session, _shipped_in_two(), KNOWN.version)
    assert differences(by_command(Consultation(KNOWN, TWO, session)), found) == []
    cause, _, _, behind = found["suspects"][0]
    assert cause == (leads or cause)
    assert behind > least
    assert any("This press: runs 6 °C cool since March" in text for _, _, why in found["told"] for text in why) == (
        press == "left"
    )
    assert ("Press: By the window (runs 6 °C cool since March)" in found["summary"]) == (press == "left")


@pytest.mark.parametrize("press", ["left", "right", "sold-long-ago", ""])
def test_a_session_with_a_press_is_opened_on_either_side(press: str) -> None:
    """What one side saves, the other reads; without a press it is written as it always was."""
    session = Session((said.Pressed("cushion-cover", {"item.polyester": 100}, press), said.Saw(("faint-colour",))))
    page = str(_shipped_in_two().call("attempt", to_json(session, KNOWN.version)))
    assert from_json(page)[0] == session
    assert json.loads(page) == json.loads(to_json(session, KNOWN.version))
    figures = session.make(said.Measured({"set": 190.0}))
    assert json.loads(by_page(figures, _shipped_in_two())["saved"]) == json.loads(to_json(figures, KNOWN.version))


@cache
def _shipped_in_two() -> Any:
    return engine(KNOWN, TWO)


def test_steps_that_cost_nothing_and_a_fix_that_never_cures() -> None:
    """The schema refuses some of this; whatever comes through all the same, both sides plan, and plan alike."""
    nothing, never = Spends(), Chance(0.0)
    known = replace(
        workshop.KNOWLEDGE,
        version="free",
        checks={key: replace(check, minutes=0.0) for key, check in workshop.KNOWLEDGE.checks.items()},
        fixes={
            key: replace(fix, minutes=0.0, spends=nothing, cures={**fix.cures, "too-short": never})
            for key, fix in workshop.KNOWLEDGE.fixes.items()
        },
        items={key: replace(item, test_minutes=0.0, blank_price=0.0) for key, item in workshop.KNOWLEDGE.items.items()},
    )
    shop = Shop(currency="free", rates=Rates(paper=0.0, scrap=0.0, blank=0.0, asking=0.0))
    world = engine(known, shop)
    for defect in known.defects:
        for turn in rehearse(Consultation(known, shop, workshop.opened(defect)), frozenset({"damp-towel"})):
            session = turn.consultation.session
            assert differences(by_command(turn.consultation), by_page(session, world, known.version)) == []


@pytest.mark.parametrize("settled", [True, False])
def test_steps_on_trial_wait_on_both_sides(settled: bool) -> None:
    """A check and a fix of another shop's, which claim to serve for everything in no time at all."""
    status, whose, sure = SETTLED if settled else TRIAL, "the bundle of a shop that gives no name", Chance(0.99)
    fixes, checks, causes = workshop.KNOWLEDGE.fixes, workshop.KNOWLEDGE.checks, workshop.KNOWLEDGE.causes
    every = dict.fromkeys(causes, sure)
    quiet, loud, *_ = next(iter(checks.values())).outcomes
    theirs: dict[str, Any] = {"status": status, "origin": whose, "minutes": 0.0, "condition": ALWAYS}
    check = replace(
        next(iter(checks.values())), id="their-check", outcomes=(quiet, replace(loud, shows=every)), **theirs
    )
    fix = replace(next(iter(fixes.values())), id="their-fix", cures=every, **theirs)
    known = replace(
        workshop.KNOWLEDGE,
        version=f"on-trial-{settled}",
        checks={**checks, "their-check": check},
        fixes={"their-fix": fix, **fixes},
    )
    world, proposed = engine(known, Shop()), set()
    for defect in known.defects:
        for turn in rehearse(Consultation(known, Shop(), workshop.opened(defect)), frozenset({"damp-towel"})):
            found = by_page(turn.consultation.session, world, known.version)
            assert differences(by_command(turn.consultation), found) == []
        proposed.add(Consultation(known, Shop(), workshop.opened(defect)).advice.id)
    assert bool(proposed & {"their-check", "their-fix"}) == settled


_worlds: dict[str, Any] = {}


def _workshop(shop: Shop) -> Any:
    if shop.currency not in _worlds:
        _worlds[shop.currency] = engine(workshop.KNOWLEDGE, shop)
    return _worlds[shop.currency]


# --- resuming ---

SAVED = json.loads(to_json(Session((said.Saw(("ghosting",)), said.Answered("no-such", "thing"))), "v"))
DAMAGED: tuple[str, ...] = (
    "",
    "null",
    "[]",
    "{}",
    '{"format": "cake-recipe", "version": 1}',
    json.dumps(SAVED),
    json.dumps({**SAVED, "version": 3}),
    json.dumps({**SAVED, "version": 2, "moves": [{"move": "measured", "figures": {"set": 900}}]}),
    json.dumps({**SAVED, "version": 2, "moves": [{"move": "measured", "figures": {"set": "hot"}}]}),
    json.dumps({**SAVED, "version": 2, "moves": [{"move": "measured", "figures": {"wind": 3}, "check": "sail"}]}),
    json.dumps({**SAVED, "version": "1"}),
    json.dumps({**SAVED, "moves": None}),
    json.dumps({**SAVED, "moves": [{"move": "sang"}]}),
    json.dumps({**SAVED, "moves": [{"move": "saw"}]}),
    json.dumps({**SAVED, "moves": [{"move": "saw", "defects": "pale"}]}),
    json.dumps({**SAVED, "moves": [{"move": "saw", "defects": ["pale", "ghosting", "barnacles"]}]}),
    json.dumps({**SAVED, "moves": [{"move": "saw", "defects": [], "colour": "blue"}]}),
    json.dumps({**SAVED, "moves": [{"move": "pressed", "item": "sail", "facts": {"item.smell": "salty"}}]}),
    json.dumps({**SAVED, "moves": [{"move": "pressed", "item": "", "facts": {"item.hard": None}}]}),
    json.dumps({**SAVED, "moves": [{"move": "pressed", "item": "", "press": 5}]}),
    json.dumps({**SAVED, "moves": [{"move": "tried", "fix": "scrub", "change": "worse", "gone": ["barnacles"]}]}),
    json.dumps({**SAVED, "moves": [{"move": "cured", "fix": ""}, {"move": "cannot-do", "fix": "scrub"}]}),
    json.dumps({**SAVED, "moves": [{"move": "cannot-tell", "check": ""}, {"move": "handed-over"}]}),
)


@pytest.mark.parametrize("text", DAMAGED)
def test_what_is_no_saved_session_is_refused_alike(text: str, tmp_path: Any) -> None:
    assert shipped_engine().call("attempt", text) == _refusal(text, tmp_path)


def _refusal(text: str, folder: Any) -> str:
    from diagnose.dialogue.saving import resumed
    from diagnose.problems import PressloreError

    file = folder / "towels.json"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(PressloreError) as caught:
        resumed(file, KNOWN)
    place, _, words = str(caught.value).partition(": ")  # a page has no file to name a line of
    assert place == f"{file}{'' if text else ':1:1'}"
    return words


# --- what the page carries ---


def test_no_text_breaks_out_of_its_script() -> None:
    nasty = "</script><!--<script>\u2028"
    shop = Shop(currency=nasty)
    text = script(KNOWN, shop)
    assert "<" not in text
    assert "\u2028" not in text
    assert engine(KNOWN, shop).eval("known.currency") == nasty


def test_the_same_knowledge_always_gives_the_same_script() -> None:
    assert script(KNOWN, Shop()) == script(KNOWN, Shop())


OWN = {  # what only a script can need
    "measures.js": {"FORMULAS", "TO"},
    "numbers.js": {"DIGITS"},
    "say.js": {"FORM", "HEAD", "PLAIN"},
    "session.js": {"DAMAGED", "KINDS"},
    "slips.js": {"LETTERS"},
    "spelling.js": {"BLANKS"},
    "unpack.js": {"NOTHING"},
}
LITERAL = re.compile(r"^ *const ([A-Z][A-Z_]*) = (?:-?\.?\d|['\"`[/(]|new \w+\(\s*['\"`[(/])", re.MULTILINE)


def test_the_scripts_hold_no_figure_or_word_that_stands_on_this_side() -> None:
    """A constant of the engine comes out of what is shared, or is worked out of it."""
    for file in engine_files():
        found = set(LITERAL.findall(file.read_text(encoding="utf-8")))
        assert found == OWN.get(file.name, set()), file.name


@pytest.mark.parametrize("line", ["3;", "'-gap';", "['l', 'a'];", "/^a/;", "new Set('no not'.split(' '));", "-1e-9;"])
def test_a_constant_of_a_script_s_own_is_found(line: str) -> None:
    assert LITERAL.findall(f"  const MOST = {line}\n") == ["MOST"]


@pytest.mark.parametrize("script_name", sorted(OWNED))
def test_what_is_shared_is_taken_by_name(script_name: str) -> None:
    """Nothing is carried that no script takes, and a script takes nothing that is not there."""
    file = next(file for file in engine_files() if file.stem == script_name)
    code = file.read_text(encoding="utf-8")
    taken = set(re.findall(rf"presslore\.shared\.{script_name}\.(\w+)", code))
    for names in re.findall(rf"const {{([^}}]*)}} =\s+presslore\.shared\.{script_name};", code):
        taken |= {name.strip() for name in names.split(",")}
    assert taken == set(shared()[script_name])


def test_joined_scripts_keep_what_they_say_and_lose_what_only_people_read(tmp_path: Path) -> None:
    (tmp_path / "a.js").write_text(
        "// what it does\nconst a = { b: 'x = {, y' }; // why\nif (a && b) {\n  c(`${a} = b`, 1 + -d);\n}\n"
        "e = /a = b/;\nx = a - -b;\n"
    )
    tight = "const a={b:'x = {, y'};if(a&&b){c(`${a} = b`,1 + -d);}\ne = /a = b/;\nx=a - -b;"
    assert joined([tmp_path / "a.js"]) == tight


def test_engine_and_knowledge_stay_small() -> None:
    carried = engine_script() + script(KNOWN, Shop())
    assert len(gzip.compress(carried.encode())) <= 150_000


# --- figures and words ---

halves = st.integers(-4000, 4000).map(lambda n: n / 1024) | st.integers(-400, 400).map(lambda n: n / 8)
figures = halves | st.floats(-1e6, 1e6) | st.floats(-1.0, 1.0)
chances = st.floats(0.0, 1.0) | st.integers(0, 400).map(lambda n: n / 400)


@settings(max_examples=400, deadline=None)
@given(value=figures, decimals=st.sampled_from((0, 1, 2, 6, 9)))
def test_figures_are_rounded_alike(value: float, decimals: int) -> None:
    assert call("numbers.rounded", value, decimals) == round(value, decimals)
    assert call("numbers.fixed", value, decimals) == f"{value:.{decimals}f}"


@settings(max_examples=400, deadline=None)
@given(value=figures | st.floats(allow_nan=False, allow_infinity=False) | st.integers(-(10**9), 10**9))
def test_figures_are_written_alike(value: float) -> None:
    assert call("numbers.general", value) == f"{value:g}"


@settings(max_examples=200, deadline=None)
@given(chance=chances, weight=st.floats(-60, 60), time=halves.map(abs) | st.floats(0, 3000))
def test_chances_weights_times_and_money_read_alike(chance: float, weight: float, time: float) -> None:
    assert call("speech.percent", chance) == percent(chance)
    scale = [{"word": word.word, "value": word.value} for word in KNOWN.scale.values()]
    assert call("speech.inWords", chance, scale) == in_words(chance, KNOWN.scale)
    assert call("speech.side", weight) == side(weight)
    assert call("speech.minutes", time) == minutes(time)
    check, fix = workshop.KNOWLEDGE.checks["probe"], workshop.KNOWLEDGE.fixes["turn-up-heat"]
    waits = Wait(minutes=time, what="the press to cool") if time >= 1 else Wait()
    theirs = {"minutes": check.minutes, "waits": {"time": waits.time, "what": waits.what}}
    assert call("speech.taking", theirs) == taking(replace(check, waits=waits))
    theirs = {**theirs, "minutes": fix.minutes}
    assert call("speech.fixTaking", theirs, 4.0, " · x") == fix_taking(replace(fix, waits=waits), 4.0, " · x")
    assert call("speech.money", time, "EUR") == money(time, "EUR")


@settings(max_examples=200, deadline=None)
@given(texts=st.lists(st.text(alphabet="ab-\u00e9\ud7ff\ue000\uffff\U0001f375", max_size=4), max_size=6))
def test_texts_stand_in_the_same_order(texts: list[str]) -> None:
    ordered = shipped_engine().eval(f"JSON.stringify({json.dumps(texts)}.sort(presslore.numbers.byText))")
    assert json.loads(str(ordered)) == sorted(texts)


def test_rules_on_trial_are_marked_alike() -> None:
    faint = KNOWN.defects["faint-colour"]
    rules = tuple(replace(rule, status="trial") if rule.cause == "dwell-short" else rule for rule in faint.rules)
    known = replace(KNOWN, defects={**KNOWN.defects, faint.id: replace(faint, rules=rules)})
    world = engine(known, Shop())
    for seen, marked in ((("faint-colour",), True), (("no-transfer",), False)):
        session = Session((said.Pressed("tea-towel-cotton", {}), said.Saw(seen)))
        found = by_page(session, world, known.version)
        assert differences(by_command(Consultation(known, Shop(), session)), found) == []
        assert any("(on trial)" in line for line in found["summary"]) is marked
