"""A little knowledge to hold dialogues with: towels and tiles for a village fête, with four causes."""

from typing import TypeVar

from hypothesis import strategies as st

from diagnose.dialogue import moves as said
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Move
from diagnose.dialogue.session import Session
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.measures import Mark, Measure, Speaks
from diagnose.knowledge.model import (
    Cause,
    Chance,
    Check,
    Defect,
    Fact,
    Fix,
    Item,
    Knowledge,
    Outcome,
    Rule,
    Settings,
    Spends,
)
from diagnose.knowledge.shop import Shop
from diagnose.problems import Place

HERE = Place("workshop")
OFTEN = ((0.9, 0.7), (0.1, 0.01))  # how often a figure lies at two marks: where a cause is there, and where it is not
Known = TypeVar("Known", Cause, Check, Defect, Fact, Fix, Item, Measure)


def _cause(name: str, turns_up: float) -> Cause:
    return Cause(id=name, title=name, place=HERE, family="press", turns_up=Chance(turns_up), about=name)


def _rule(cause: str, defect: str, brings: float) -> Rule:
    return Rule(
        cause=cause,
        defect=defect,
        brings=Chance(brings),
        why="-",
        basis=("common practice",),
        status="settled",
        date="2026-01-01",
        place=HERE,
    )


def _defect(name: str, brought_on_by: dict[str, float]) -> Defect:
    rules = tuple(_rule(cause, name, brings) for cause, brings in brought_on_by.items())
    return Defect(id=name, title=name, place=HERE, looks=name, said=(name,), otherwise=Chance(0.02), rules=rules)


def _check(name: str, minutes: float, shows: dict[str, dict[str, float]]) -> Check:
    loud = (
        Outcome(
            id=outcome,
            looks=outcome,
            shows={cause: Chance(chance) for cause, chance in causes.items()},
            otherwise=Chance(0.03),
        )
        for outcome, causes in shows.items()
    )
    quiet = Outcome(id="nothing", looks="nothing")
    return Check(
        id=name,
        title=name,
        place=HERE,
        kind="look",
        asks=name,
        how=(name,),
        minutes=minutes,
        outcomes=(quiet, *loud),
    )


def _fix(name: str, minutes: float, cures: dict[str, float]) -> Fix:
    chances = {cause: Chance(chance) for cause, chance in cures.items()}
    return Fix(id=name, title=name, place=HERE, steps=(name,), minutes=minutes, spends=Spends(paper=1), cures=chances)


def _item(name: str, family: str) -> Item:
    facts: dict[str, FactValue] = {"item.family": family, "item.thickness": 0.5 if family == "cloth" else 6.0}
    return Item(
        id=name,
        title=name,
        place=HERE,
        family=family,
        facts=facts,
        said=(name,),
        settings=Settings(temperature=(190.0, 200.0), dwell=(45.0, 60.0), pressure="medium", peel="warm", settle=30.0),
        blank_price=2.0,
        test_minutes=4.0,
    )


def _measure(name: str, check: str, cause: str, marks: tuple[float, float], error: float) -> Measure:
    """A measure that speaks for a cause from the first mark on, and more from the second."""
    near, far = (Mark(at, Chance(there), Chance(otherwise)) for at, there, otherwise in zip(marks, *OFTEN, strict=True))
    speaks = {cause: Speaks(under=(near, far))}
    return Measure(
        id=name, title=name, place=HERE, how=(name,), minutes=1.0, error=error, settles=(check,), speaks=speaks
    )


def _by_id(*entries: Known) -> dict[str, Known]:
    return {entry.id: entry for entry in entries}


KNOWLEDGE = Knowledge(
    version="workshop-1",
    scale={},
    scale_note="",
    facts=_by_id(
        Fact(id="item.family", title="kind", asks="kind?", one_of=("cloth", "ceramic"), place=HERE),
        Fact(id="item.thickness", title="thickness", asks="thickness?", unit="mm", least=0, most=60, place=HERE),
        Fact(id="press.levelled", title="levelled", asks="levelled?", yes_no=True, place=HERE),
    ),
    causes=_by_id(
        _cause("runs-cool", 0.10),
        _cause("too-short", 0.08),
        _cause("sheet-slips", 0.12),
        _cause("damp-towel", 0.15),
    ),
    checks=_by_id(
        _check("probe", 8.0, {"reads-low": {"runs-cool": 0.9}}),
        _check("clock", 2.0, {"seconds-short": {"too-short": 0.85}}),
        _check("tape", 1.0, {"loose": {"sheet-slips": 0.7}, "missing": {"sheet-slips": 0.2}}),
        _check("feel", 0.5, {"damp": {"damp-towel": 0.8}}),
    ),
    fixes=_by_id(
        _fix("turn-up-heat", 10.0, {"runs-cool": 0.9}),
        _fix("press-longer", 1.0, {"too-short": 0.9, "runs-cool": 0.3}),
        _fix("tape-the-sheet", 2.0, {"sheet-slips": 0.95}),
        _fix("pre-press", 3.0, {"damp-towel": 0.85}),
        _fix("iron-dry", 6.0, {"damp-towel": 0.9}),
    ),
    defects=_by_id(
        _defect("pale", {"runs-cool": 0.9, "too-short": 0.8, "damp-towel": 0.3}),
        _defect("second-copy", {"sheet-slips": 0.85}),
        _defect("steam-marks", {"damp-towel": 0.7, "runs-cool": 0.1}),
    ),
    items=_by_id(_item("fete-towel", "cloth"), _item("harbour-tile", "ceramic")),
    cautions={},
    glossary={},
    sources={},
    readings=_by_id(
        _measure("platen-gap", "probe", "runs-cool", (-3.0, -6.0), 1.0),
        _measure("dwell-gap", "clock", "too-short", (-10.0, -25.0), 2.0),
        _measure("yellowness", "feel", "damp-towel", (-1.0, -3.0), 0.5),
    ),
)


def at_work(session: Session) -> Consultation:
    """A consultation on this session, in a shop with the usual prices."""
    return Consultation(KNOWLEDGE, Shop(), session)


def opened(*defects: str) -> Session:
    """A towel was pressed, and these defects were seen."""
    return Session((said.Pressed("fete-towel"), said.Saw(defects)))


# --- anything a person may say ---

defects = st.lists(st.sampled_from(sorted(KNOWLEDGE.defects)), unique=True).map(tuple)
fixes = st.sampled_from(sorted(KNOWLEDGE.fixes))
checks = st.sampled_from(sorted(KNOWLEDGE.checks))
facts = st.fixed_dictionaries(
    {},
    optional={
        "item.family": st.sampled_from(("cloth", "ceramic")),
        "item.thickness": st.floats(0, 60) | st.integers(0, 60),
        "press.levelled": st.booleans(),
    },
)
presses = st.sampled_from(("", "left", "right", "sold-long-ago"))
answers = checks.flatmap(
    lambda check: st.sampled_from([o.id for o in KNOWLEDGE.checks[check].outcomes]).map(
        lambda outcome: said.Answered(check, outcome)
    )
)
degrees, seconds = st.floats(-20, 300), st.floats(1, 600)
figures = st.fixed_dictionaries(
    {},
    optional={
        "set": degrees,
        "probe": degrees,
        "dwell": seconds,
        "watch": seconds,
        "sheets": st.integers(0, 20).map(float),
        "ground.b": st.floats(-128, 128),
        "print.l": st.floats(0, 100),
    },
)
measured = st.builds(said.Measured, figures, st.just("") | checks)
between_fixes = st.one_of(
    measured,
    st.builds(said.Named, st.sampled_from(sorted(KNOWLEDGE.causes))),
    st.builds(said.Saw, defects),
    st.builds(said.DidNotSee, defects),
    answers,
    st.builds(said.CannotTell, checks),
    st.builds(said.CannotDo, fixes),
)
anything: st.SearchStrategy[Move] = st.one_of(
    between_fixes,
    st.builds(said.Pressed, st.sampled_from(("", *KNOWLEDGE.items)), facts, presses),
    st.builds(said.TriedFix, fixes, st.sampled_from(("", "better", "same")), defects),
    st.builds(said.Cured, st.sampled_from(("", *KNOWLEDGE.fixes))),
    st.just(said.HandedOver()),
)
sessions = st.lists(anything, max_size=12).map(lambda moves: Session(tuple(moves)))
