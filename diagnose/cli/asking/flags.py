"""From the flags of ``presslore diagnose`` to a session, with what was understood and what was not."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import nan
from typing import Any

import click

from diagnose.cli.asking import figures
from diagnose.cli.asking.goods import goods_used
from diagnose.dialogue.alarm import alarm
from diagnose.dialogue.hearing import Heard, hear
from diagnose.dialogue.moves import Answered, CannotDo, CannotTell, DidNotSee, Move, Pressed, TriedFix, Used
from diagnose.dialogue.nearby import nearest_defects, nearest_items
from diagnose.dialogue.saving import LARGEST, to_plain
from diagnose.dialogue.session import Session
from diagnose.dialogue.taking import Telling, tellings
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import Danger, Elsewhere, Entry, Fact, Knowledge
from diagnose.reasoning.evidence import SAME
from diagnose.reasoning.words import THE_REST, Lexicon, find_item, is_cut, nearest

POLYESTER = "item.polyester"


@dataclass(frozen=True, slots=True, kw_only=True)
class Flags:
    """What was given on the command line, as it was typed. ``words``: a message in the person's own words."""

    words: Sequence[str] = ()
    item: str = ""
    facts: Sequence[str] = ()
    saw: Sequence[str] = ()
    not_seen: Sequence[str] = ()
    answers: Sequence[str] = ()
    cannot_tell: Sequence[str] = ()
    tried: Sequence[str] = ()
    cannot_do: Sequence[str] = ()
    used: Sequence[str] = ()
    press: str = ""
    polyester: str = ""
    measured: Mapping[str, str] = field(default_factory=dict)


@dataclass(slots=True)
class TakenFlags:
    """The session the flags make, laid over one resumed, and how the words were taken. ``refused``: the stuffs of
    goods that are, by id; ``refused_item``: the words that named such goods; ``told``: what free words told;
    ``spoken``: the words that carried each, ``unsure``: readings that come near each other. ``near_defects`` and
    ``near_items``: what comes nearest where no defect, or not the item (``item_unknown``), was understood; ``danger``:
    what the words cry out, told before all else; ``elsewhere``: the other crafts that they ask about, where they told
    of nothing else."""

    session: Session
    not_understood: list[str] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)
    refused_item: str = ""
    told: list[Telling] = field(default_factory=list)
    spoken: dict[str, str] = field(default_factory=dict)
    unsure: list[Sequence[Move]] = field(default_factory=list)
    near_defects: tuple[str, ...] = ()
    near_items: tuple[str, ...] = ()
    item_unknown: bool = False
    danger: Danger | None = None
    elsewhere: list[Elsewhere] = field(default_factory=list)

    @property
    def puzzling(self) -> list[str]:
        """What led to nothing, without goods of which it is said why they are refused."""
        return [words for words in self.not_understood if words != self.refused_item]

    def understood(self, knowledge: Knowledge) -> dict[str, Any]:
        """The ``understood`` part of the report."""
        evidence, item = self.session.evidence, knowledge.items.get(self.session.item)
        return {
            "item": {"id": item.id, "title": item.title, "origin": item.origin} if item else None,
            "facts": {**(item.facts if item else {}), **self.session.facts},
            "defects": [_titled(knowledge.defects, defect) for defect in evidence.seen],
            "not_seen": [_titled(knowledge.defects, defect) for defect in evidence.not_seen],
            "outcomes": [{"check": c, "outcome": o} for c, (o, _) in evidence.answers.items()],
            "figures": {name: round(value, 4) for _, told in self.session.figures for name, value in told.items()},
            "not_understood": self.not_understood,
            "causes": [_titled(knowledge.causes, cause) for cause, _ in evidence.named],
            "tried": [{"fix": tried.fix, "change": tried.change} for tried in evidence.tried],
            "words": self.spoken,
            "unsure": [to_plain(Session(tuple(reading))) for reading in self.unsure],
            "nearest": {
                "defects": [_titled(knowledge.defects, defect) for defect in self.near_defects],
                "items": [_titled(knowledge.items, item) for item in self.near_items],
            },
            "elsewhere": [
                {"id": each.id, "title": each.title, "says": each.says, "turn_to": each.turn_to}
                for each in self.elsewhere
            ],
        }


def _titled(entries: Mapping[str, Entry], entry: str) -> dict[str, str]:
    return {"id": entry, "title": entries[entry].title, "origin": entries[entry].origin}


def take(
    flags: Flags, knowledge: Knowledge, lexicon: Lexicon, session: Session, presses: Collection[str] = ()
) -> TakenFlags:
    """The session after the flags. ``presses``: the ids of the shop's. Raises click.UsageError for an id that is not
    known, with the nearest one."""
    taken = TakenFlags(session)
    alarms = [alarm(knowledge, text) for text in (flags.item, " ".join(flags.words), *flags.saw) if text.strip()]
    taken.danger = next(filter(None, alarms), None)
    if taken.danger:  # nothing else is read of words that cry for help
        return taken
    if flags.press:
        taken.session = session.make(Pressed(session.item, {}, _press(flags.press, presses)))
    _take_item(flags, knowledge, lexicon, taken)
    said = [*([" ".join(flags.words)] if flags.words else []), *flags.saw]
    for text in said:
        _take_sight(hear(knowledge, lexicon, text), taken, knowledge)
    for text in flags.not_seen:
        heard = hear(knowledge, lexicon, text)
        absent = (*heard.defects, *heard.not_seen)  # "ghosting" and "no ghosting" are both told by this flag
        taken.not_understood += [*heard.not_understood] if absent else [text]
        if absent:
            taken.session = taken.session.make(DidNotSee(absent))
    for pair in flags.answers:
        taken.session = taken.session.make(_answer(knowledge, pair))
    if move := figures.measured(flags.measured):
        taken.session = taken.session.make(move)
    if used := goods_used(flags.used):
        taken.session = taken.session.make(Used(used))
    for check in flags.cannot_tell:
        taken.session = taken.session.make(CannotTell(known_id(check, knowledge.checks, "check")))
    for fix in flags.tried:
        taken.session = taken.session.make(TriedFix(known_id(fix, knowledge.fixes, "fix"), SAME))
    for fix in flags.cannot_do:
        taken.session = taken.session.make(CannotDo(known_id(fix, knowledge.fixes, "fix")))
    if not taken.session.evidence.seen:
        taken.near_defects = nearest_defects(lexicon, " ".join(said))
    if taken.item_unknown:
        taken.near_items = nearest_items(knowledge, flags.item)
    return taken


def _take_item(flags: Flags, knowledge: Knowledge, lexicon: Lexicon, taken: TakenFlags) -> None:
    facts = dict(fact(knowledge, pair) for pair in flags.facts)
    if flags.polyester:
        facts |= dict([fact(knowledge, f"{POLYESTER}={_per_cent(flags.polyester):g}")])
    if not flags.item and not facts:
        return
    found = find_item(lexicon, flags.item) if flags.item else None
    if found and found.refused:
        taken.refused.append(found.refused)
        taken.refused_item = flags.item
    if flags.item and (found is None or found.refused):
        taken.not_understood.append(flags.item)
        taken.item_unknown = found is None or not found.refused
    elif is_cut(flags.item):
        taken.not_understood.append(THE_REST)
    item = found.id if found else taken.session.item
    taken.session = taken.session.make(Pressed(item, {**(found.facts if found else {}), **facts}))


def _per_cent(typed: str) -> float:
    from diagnose.press.quantities import Unclear, share

    try:
        return round(100.0 * share(typed), 6)
    except Unclear as unclear:
        raise click.BadParameter(str(unclear), param_hint="'--polyester'") from unclear


def _press(typed: str, presses: Collection[str]) -> str:
    if not presses:
        raise click.UsageError(f"--press {typed}: no shop.yaml names presses; they stand in it under presses")
    return known_id(typed, presses, "press")


def _take_sight(heard: Heard, taken: TakenFlags, knowledge: Knowledge) -> None:
    taken.not_understood += heard.not_understood
    if heard.refused and not taken.session.item:
        taken.refused.append(heard.refused)
    if taken.session.item:
        heard = replace(heard, item="", facts=())
    told = tellings(heard)
    taken.told += told
    taken.spoken |= heard.spoken
    taken.unsure += heard.unsure
    if heard.unsure and not taken.session.evidence.seen and not heard.defects:
        told += [Telling(move) for move in heard.unsure[0]]
    for each in told:
        taken.session = taken.session.make(each.move)
    if heard.of_another_craft:
        taken.elsewhere.append(knowledge.elsewhere[heard.elsewhere])


def _answer(knowledge: Knowledge, pair: str) -> Answered:
    check_id, mark, outcome_id = pair.partition("=")
    if not mark:
        raise click.UsageError(f"--answer {pair}: expected CHECK=OUTCOME, as in probe-the-platen=reads-low")
    check = knowledge.checks[known_id(check_id, knowledge.checks, "check")]
    return Answered(check.id, known_id(outcome_id, [o.id for o in check.outcomes], f"outcome of {check.id}"))


def fact(knowledge: Knowledge, pair: str) -> tuple[str, FactValue]:
    fact_id, mark, text = pair.partition("=")
    if not mark:
        raise click.UsageError(f"--fact {pair}: expected FACT=VALUE, as in item.polyester=65")
    fact = knowledge.facts[known_id(fact_id, knowledge.facts, "fact")]
    return fact.id, _fact_value(fact, text)


def _fact_value(fact: Fact, text: str) -> FactValue:
    if fact.one_of:
        return _one_of(fact, text)
    if fact.yes_no:
        if text.lower() not in ("yes", "no", "true", "false"):
            raise click.UsageError(f"--fact {fact.id}={text}: expected yes or no")
        return text.lower() in ("yes", "true")
    try:
        number = float(text)
    except ValueError:
        number = nan  # which lies within no limits
    least = -LARGEST if fact.least is None else max(fact.least, -LARGEST)
    most = LARGEST if fact.most is None else min(fact.most, LARGEST)
    if not least <= number <= most:
        limits = f" from {least:g} to {most:g}"
        unit = f" {fact.unit}" if fact.unit else ""
        raise click.UsageError(f"--fact {fact.id}={text}: expected a number{limits}{unit}")
    return number


def _one_of(fact: Fact, text: str) -> str:
    """The value, by itself or by one of the words people use for it."""
    names = {word: value for value in fact.one_of for word in (*fact.words.get(value, ()), value)}
    if text.strip().lower() in names:
        return names[text.strip().lower()]
    near = nearest(names, text)
    hint = f". Did you mean {names[near]}?" if near else ""
    raise click.UsageError(f"--fact {fact.id}={text}: expected one of {', '.join(fact.one_of)}{hint}")


def known_id(typed: str, known: Any, what: str) -> str:
    """The id as typed where it is known. Raises click.UsageError with the nearest where it is not."""
    wanted = typed.strip()
    if wanted in known:
        return wanted
    near = nearest(list(known), wanted)
    hint = f" Did you mean {near}?" if near else ""
    raise click.UsageError(f"no {what} has the id {wanted!r}.{hint}")
