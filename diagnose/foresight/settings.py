"""How an item is pressed, as a whole: its own settings, and the lines on handling that fit such goods."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from diagnose.knowledge.cautions import at_a_press
from diagnose.knowledge.conditions import ALWAYS, FactValue
from diagnose.knowledge.model import SHIPPED, Item, Knowledge, Settings
from diagnose.knowledge.preparing import PARTS, Handling, Statement


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingLine:
    """What is done about one part of the work, and why. ``text``: "" where it is the plain pre-press of an item with a
    time of its own. ``seconds``: least and most, None where it takes no time."""

    part: str
    text: str
    why: str
    basis: tuple[str, ...]
    seconds: tuple[float, float] | None = None
    origin: str = SHIPPED


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """How an item is pressed. ``lines`` stand in the order of the work. ``against``: what speaks against pressing such
    goods, though it does not bar them."""

    item: Item
    settings: Settings
    lines: tuple[SettingLine, ...]
    cautions: tuple[str, ...]
    against: tuple[Statement, ...]

    def line(self, part: str) -> SettingLine | None:
        """The line on one part; None where there is none."""
        return next((line for line in self.lines if line.part == part), None)


def recipe(item: Item, knowledge: Knowledge, told: Mapping[str, FactValue] | None = None) -> Recipe | None:
    """How the item is pressed, with what is ``told`` of it beyond its usual facts; None where it has no settings,
    or is barred."""
    facts = {**item.facts, **(told or {})}
    if item.settings is None or barred(knowledge, facts):
        return None
    return Recipe(
        item=item,
        settings=item.settings,
        lines=tuple(_lines(replace(item, facts=facts), item.settings, knowledge)),
        cautions=at_a_press(knowledge.cautions, item),
        against=tuple(refuted(knowledge, facts)),
    )


def barred(knowledge: Knowledge, facts: Mapping[str, FactValue]) -> tuple[Statement, ...]:
    """Why goods of such facts are not pressed at all; () where they may be."""
    return tuple(statement for statement in refuted(knowledge, facts) if statement.bars)


def refuted(knowledge: Knowledge, facts: Mapping[str, FactValue]) -> Iterator[Statement]:
    """The statements that the facts of a job alone show not to be so."""
    for statement in knowledge.ready.values():
        if statement.refuted != ALWAYS and statement.refuted.holds(facts) and statement.condition.may_hold(facts):
            yield statement


def _lines(item: Item, settings: Settings, knowledge: Knowledge) -> Iterator[SettingLine]:
    for part in PARTS:
        fitting = _fitting(part, item, knowledge)
        own = settings.handling.get(part)
        if own:
            yield SettingLine(part=part, text=own, why="", basis=item.basis, origin=item.origin)
        elif fitting:
            seconds = settings.pre_press if part == "pre-press" and settings.pre_press else fitting.seconds
            yield SettingLine(
                part=part,
                text=_text(fitting, settings),
                why=fitting.why,
                basis=fitting.basis,
                seconds=seconds,
                origin=fitting.origin,
            )


def _fitting(part: str, item: Item, knowledge: Knowledge) -> Handling | None:
    """The first line on a part whose condition the item meets, else the first that it may meet."""
    lines = [line for line in knowledge.handling.values() if line.part == part]
    sure = (line for line in lines if line.condition.holds(item.facts))
    return next(sure, next((line for line in lines if line.condition.may_hold(item.facts)), None))


def _text(line: Handling, settings: Settings) -> str:
    """The line's words; "" where the item has a time of its own for what such goods usually go without."""
    timed = settings.pre_press and line.part == "pre-press" and line.seconds and not line.seconds[1]
    return "" if timed else line.title
