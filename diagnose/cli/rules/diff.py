"""``presslore rules diff``: what a change of rules does, before it is relied on."""

import sys
import textwrap
from collections.abc import Iterable, Sequence
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from diagnose.cli import exits
from diagnose.cli.lookup.pages import condition
from diagnose.cli.options import BOOK
from diagnose.cli.shop import shelf
from diagnose.cli.terminal.screen import Screen, print_json, progress, screen_for
from diagnose.knowledge.folders import SHOP_FILE
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge, Rule
from diagnose.knowledge.shop import Shop
from diagnose.speech.amounts import in_words, percent
from diagnose.speech.saying import say

if TYPE_CHECKING:
    from diagnose.casebook.case import Case
    from diagnose.casebook.comparing import Comparison, PastChange, RuleChange, WorkedChange

SHIPPED = "shipped"
FORMAT, VERSION = "presslore-rules-diff", 1
SIGNS = {"added": "+", "changed": "~", "removed": "-"}
VERDICTS = ("sooner", "later", "same")
STORY = 72  # letters of a worked case's story


@click.command(
    epilog="\b\nExamples:\n  presslore rules diff shipped my-shop\n"
    "  presslore rules diff my-shop-before my-shop --book my-shop/casebook.sqlite3"
)
@click.argument("old")
@click.argument("new")
@BOOK
@click.option("--most", default=500, show_default=True, type=click.IntRange(1), help="Of the newest past cases.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def diff(old: str, new: str, book: str, most: int, as_json: bool) -> int:
    """Show what a change of rules does to the cases.

    OLD and NEW are each a shop's folder, which is laid over what ships, or the word shipped.

    Each worked case is shown where its cause now stands higher or lower among the suspects. With --book, the shop's
    past cases are gone through again with their recorded answers, and measured by the minutes until the fix that
    cured them is proposed; what a case has no answer to counts as "cannot tell".
    """
    from diagnose.casebook.comparing import compare

    before, after = _knowledge(old), _knowledge(new)
    with progress("Comparing", shown=not as_json) as far:
        found = compare(before, after, _shop(new, old), _cases(book, most), far)
    if as_json:
        print_json(to_plain(found))
    else:
        _show(screen_for(sys.stdout), before, after, found, bool(book))
    return exits.GOOD


def _knowledge(named: str) -> Knowledge:
    if named == SHIPPED:
        return shelf.shipped()
    folder = Path(named)
    if not folder.is_dir():
        raise click.UsageError(f"{named}: expected a shop's folder, or the word {SHIPPED}")
    return load(shipped_folder(), folder)


def _shop(*named: str) -> Shop:
    """The prices and presses of the first folder that has a shop.yaml, else those found as ever."""
    return shelf.shop(next((Path(one) for one in named if (Path(one) / SHOP_FILE).is_file()), None))


def _cases(book: str, most: int) -> "list[Case]":
    """The newest cases of the casebook named, the oldest of them first; none where none is named."""
    if not book:
        return []
    from diagnose.cli.shop.bookcase import existing

    opened = existing(book)
    if opened is None:
        return []
    with opened:
        return list(islice(opened.newest(most), most))[::-1]


def _show(screen: Screen, before: Knowledge, after: Knowledge, found: "Comparison", booked: bool) -> None:
    show_rules(screen, before, after, found)
    worked = [change for change in found.worked if change.verdict != "same"]
    past = [change for change in found.past if change.verdict != "same"]
    if worked:
        screen.line()
        screen.line(say("worked-cases-compared"), "title")
    for one in worked:
        screen.hang(one.verdict.ljust(6), _worked_words(after, before, one), style=_style(one.verdict))
    if past:
        screen.line()
        screen.line(say("past-cases-compared"), "title")
    for (verdict, words), several in _gathered(before, after, past).items():
        named = f"case {several[0].case.id[-8:]}" if len(several) == 1 else f"{len(several)} cases"
        screen.hang(verdict.ljust(6), f"{words}; {named})", style=_style(verdict))
    screen.line()
    show_totals(screen, found, booked)


def show_rules(screen: Screen, before: Knowledge, after: Knowledge, found: "Comparison") -> None:
    """The rules that are added, changed and removed, and what else is."""
    screen.line(say("rules-stand-in", file=_counted(change.kind for change in found.rules)), "title")
    for change in found.rules:
        knowledge = before if change.after is None else after
        screen.hang(SIGNS[change.kind], _rule_words(knowledge, change), style=_sign_style(change.kind))
    for among in dict.fromkeys(change.among for change in found.entries):
        those = [change for change in found.entries if change.among == among]
        screen.line(f"{among.capitalize()}: {_counted(change.kind for change in those)}", "title")
        for entry in those:
            screen.hang(SIGNS[entry.kind], entry.id, style=_sign_style(entry.kind))


def _counted(kinds: Iterable[str]) -> str:
    listed = list(kinds)
    return ", ".join(f"{listed.count(kind)} {kind}" for kind in SIGNS)


def _rule_words(knowledge: Knowledge, change: "RuleChange") -> str:
    rule = change.rule
    told = f"{rule.cause} → {rule.defect}{condition(knowledge, rule.condition)}: "
    if change.before is None or change.after is None:
        return told + in_words(rule.brings.value, knowledge.scale) + _trial(rule)
    if change.before.brings != change.after.brings:
        was, now = (in_words(each.brings.value, knowledge.scale) for each in (change.before, change.after))
        return f"{told}{was} → {now}{_trial(rule)}"
    if change.before.status != change.after.status:
        return f"{told}{change.before.status} → {change.after.status}"
    return told + "in its words"


def _trial(rule: Rule) -> str:
    return " (on trial)" if rule.status == "trial" else ""


def _worked_words(after: Knowledge, before: Knowledge, change: "WorkedChange") -> str:
    was, now = (
        f"place {each.place}, {percent(each.chance)}" if each else "never" for each in (change.before, change.after)
    )
    defects = {**before.defects, **after.defects}
    story = textwrap.shorten(change.case.story, STORY, placeholder="…")
    return f"{was} → {now}  {', '.join(change.case.first)}  ({defects[change.defect].title}: {story})"


def _gathered(
    before: Knowledge, after: Knowledge, changes: "Iterable[PastChange]"
) -> "dict[tuple[str, str], list[PastChange]]":
    """The past cases by what is told of them."""
    found: dict[tuple[str, str], list[PastChange]] = {}
    for change in changes:
        found.setdefault((change.verdict, _past_words(after, before, change)), []).append(change)
    return found


def _past_words(after: Knowledge, before: Knowledge, change: "PastChange") -> str:
    was, now = ("never" if each is None else f"{each:.0f} min" for each in (change.before, change.after))
    defects = {**before.defects, **after.defects}
    seen = ", ".join(defects[one].title if one in defects else one for one in change.case.session.evidence.seen)
    return f"{was} → {now}  {change.case.cured_by}  ({seen}"


def show_totals(screen: Screen, found: "Comparison", booked: bool) -> None:
    """How many cases are solved sooner, later and as before; with past cases where a casebook was given."""
    rows: list[tuple[str, Sequence[WorkedChange | PastChange]]] = [("worked cases", found.worked)]
    rows += [("past cases", found.past)] if booked else []
    screen.whole(" " * 13 + "".join(verdict.rjust(8) for verdict in VERDICTS))
    for name, changes in rows:
        numbers = (sum(change.verdict == verdict for change in changes) for verdict in VERDICTS)
        screen.whole(name.ljust(13) + "".join(str(number).rjust(8) for number in numbers))
    if found.past_left_out:
        screen.line(say("past-cases-left-out", past_left_out=found.past_left_out), "dim")


def _style(verdict: str) -> str:
    return "good" if verdict == "sooner" else "bad"


def _sign_style(kind: str) -> str:
    return {"added": "good", "removed": "bad"}.get(kind, "key")


def to_plain(found: "Comparison") -> dict[str, Any]:
    """The comparison as JSON values; null where a cause or fix is never come to."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "rules": [_plain_rule(change) for change in found.rules],
        "entries": [{"kind": each.kind, "among": each.among, "id": each.id} for each in found.entries],
        "worked_cases": {"totals": _plain_totals(found.worked), "cases": [_plain_worked(w) for w in found.worked]},
        "past_cases": {
            "totals": {**_plain_totals(found.past), "left_out": found.past_left_out},
            "cases": [
                {"id": p.case.id, "cured_by": p.case.cured_by, "verdict": p.verdict}
                | {"minutes_before": p.before, "minutes_after": p.after}
                for p in found.past
            ],
        },
    }


def _plain_rule(change: "RuleChange") -> dict[str, Any]:
    rule = change.rule
    sides = {"before": change.before, "after": change.after}
    return {
        "kind": change.kind,
        "cause": rule.cause,
        "defect": rule.defect,
        "if": {test.fact: test.written for test in rule.condition.tests},
        **{
            name: {"brings": side.brings.value, "status": side.status} if side else None for name, side in sides.items()
        },
    }


def _plain_worked(change: "WorkedChange") -> dict[str, Any]:
    sides = {"before": change.before, "after": change.after}
    return {
        "defect": change.defect,
        "story": change.case.story,
        "causes": list(change.case.first),
        "verdict": change.verdict,
        **{name: {"place": side.place, "chance": side.chance} if side else None for name, side in sides.items()},
    }


def _plain_totals(changes: "Sequence[WorkedChange | PastChange]") -> dict[str, int]:
    return {verdict: sum(change.verdict == verdict for change in changes) for verdict in VERDICTS}
