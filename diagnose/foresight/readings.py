"""What measured figures say of causes, ready to be weighed with everything else."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from diagnose.foresight.dosing import LITTLE, MUCH, Set, Together, together
from diagnose.foresight.figures import FIGURES, Figure, title
from diagnose.foresight.likelihood import ratio
from diagnose.foresight.measures import FORMULAS, Bench, TakenMeasure, Told, in_press, taken
from diagnose.foresight.pressing import usual_settings
from diagnose.knowledge.measures import Measure
from diagnose.knowledge.model import Item, Knowledge
from diagnose.reasoning.evidence import Evidence, Weighed

PLATEN, STACK = "platen-gap", "stack-gap"
DOSING = frozenset({PLATEN, "set-gap", "dwell-gap", "layers-dose", "thickness-dose"})  # measures that make up a dose
DOSED = frozenset({*LITTLE.values(), *MUCH.values()})


@dataclass(frozen=True, slots=True)
class Reading:
    """A measure that was taken, and what it says: for each cause how many times as often such a figure shows where
    the cause is there. ``settles``: the checks that need no answer any more. ``counts``: how many times as far off it
    counts, with all that is told, for the causes of its part in the dose."""

    taken: TakenMeasure
    measure: Measure
    ratios: Mapping[str, float]
    settles: tuple[str, ...]
    counts: float = 1.0

    @property
    def id(self) -> str:
        return self.taken.measure


def readings(told: Told, item: Item | None, knowledge: Knowledge) -> tuple[Reading, ...]:
    """The readings that some figures make, in the order of the knowledge; a measure that a shop has retired says
    nothing."""
    found = {each.measure: each for each in taken(told, item, knowledge)}
    stood = {name: _stood(name, told) for name in found if name in DOSING}
    reckoned = {each: together(item, knowledge, each) for each in set(stood.values())} if item else {}
    counts = {name: reckoned[each] for name, each in stood.items()} if item else {}
    return tuple(
        _reading(found, measure, knowledge, counts.get(measure.id, Together()))
        for measure in knowledge.readings.values()
        if measure.id in found
    )


def settled(found: Iterable[Reading]) -> dict[str, int]:
    """Checks that a figure takes the place of, each with the number of fixes tried before it was read."""
    pairs = ((check, reading.taken.period) for reading in found for check in reading.settles)
    return dict(sorted(pairs, key=lambda pair: pair[1]))


def weighing(evidence: Evidence, found: Iterable[Reading]) -> Evidence:
    """The evidence with what figures say, and without what was answered by eye, up to then, to the same checks."""
    found = tuple(found)
    periods = settled(found)
    answers = {
        check: (outcome, period)
        for check, (outcome, period) in evidence.answers.items()
        if period > periods.get(check, -1)
    }
    weighed = tuple(
        Weighed(reading.id, cause, ratio, reading.taken.period)
        for reading in found
        for cause, ratio in reading.ratios.items()
        if ratio != 1.0
    )
    return replace(evidence, answers=answers, weighed=(*evidence.weighed, *weighed))


@dataclass(frozen=True, slots=True)
class IdleFigure:
    """A figure that was told and says nothing. ``why``: ``without`` what is ``missing``, without the ``item`` named,
    without the ``other`` figure of its pair, or because it says nothing of ``this-item``."""

    title: str
    why: str
    missing: tuple[str, ...] = ()


def idle(told: Told, found: Iterable[Reading], bench: Bench) -> Iterator[IdleFigure]:
    """Each figure that says nothing, and why."""
    used = {name for reading in found for name in reading.taken.figures}
    known = {name for _, figures in told for name in figures}
    for name in sorted(_of(known - used)):
        formulas = [formula for formula in FORMULAS.values() if formula.own.partition(".")[0] == name]
        missing = sorted(_of(need for formula in formulas for need in formula.needs) - {name} - _of(known))
        if not missing and bench.whole is None:
            yield IdleFigure(title(name), "item")
        elif missing or not formulas:
            yield IdleFigure(title(name), "without" if missing else "other", tuple(map(title, missing)))
        else:
            yield IdleFigure(title(name), "this-item")


def _of(names: Iterable[str]) -> set[str]:
    return {name.partition(".")[0] for name in names}


def asked_by(check: str, item: Item | None, knowledge: Knowledge) -> Figure | None:
    """The figure that may be told in answer to a check, None where there is none, or where it would say nothing of this
    item."""
    for measure in knowledge.readings.values():
        formula = FORMULAS[measure.id]
        if check in measure.settles and formula.own in FIGURES and formula.serves(Bench(item, knowledge)):
            return FIGURES[formula.own]
    return None


def dosed(measure: str, cause: str) -> bool:
    """Whether a measure speaks of a cause by its part in the dose, together with whatever else is told."""
    return measure in DOSING and cause in DOSED


def spoken(item: Item, knowledge: Knowledge, told: Set) -> dict[str, float]:
    """What a job's settings say of the causes of too little and too much, as the figures of a spoiled piece do."""
    heat = usual_settings(item).temperature if told.temperature is None else told.temperature
    figures = {
        "set": told.temperature if told.offset is None else heat,
        "dwell": told.dwell,
        "probe": None if told.offset is None else heat + told.offset,
        "sheets": told.cover_sheets,
        "thickness": told.thickness,
    }
    known = {name: float(value) for name, value in figures.items() if value is not None}
    return {
        cause: ratio
        for reading in readings([(0, known)], item, knowledge)
        for cause, ratio in reading.ratios.items()
        if dosed(reading.id, cause)
    }


def _stood(measure: str, told: Told) -> Set:
    """What was set when a measure was taken: mostly the same for all, and reckoned with once then."""
    figures = in_press(measure, told)
    return Set(
        temperature=figures.get("set"),
        dwell=figures.get("dwell"),
        offset=figures.get("offset"),
        cover_sheets=round(figures["sheets"]) if "sheets" in figures else None,
        thickness=figures.get("thickness"),
    )


def _reading(found: Mapping[str, TakenMeasure], measure: Measure, knowledge: Knowledge, all_told: Together) -> Reading:
    """A figure that has a part in the dose counts as far off as all figures together bring the dose off. A strip in
    the stack is held against a platen as the probe found it, where there was one: it then has nothing more to say of
    what the probe speaks of."""
    platen = knowledge.readings.get(PLATEN) if measure.id == STACK and PLATEN in found else None
    probed = platen.speaks if platen else {}
    value = found[measure.id].value
    counts = all_told.short if value < 0.0 else all_told.over
    ratios = {
        cause: ratio(value * counts if dosed(measure.id, cause) else value, measure, cause)
        for cause in measure.speaks
        if cause not in probed and cause in knowledge.causes
    }
    return Reading(found[measure.id], measure, ratios, measure.settles, counts if value else 1.0)
