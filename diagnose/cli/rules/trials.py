"""``presslore rules trials`` and ``presslore rules promote``: what is on trial, and how it is settled."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from diagnose.cli import exits
from diagnose.cli.completion import ids
from diagnose.cli.options import BOOK, shop_option
from diagnose.cli.shop import shelf
from diagnose.cli.terminal.screen import Screen, print_json, screen_for
from diagnose.knowledge.model import Check, Fix, Rule
from diagnose.speech.saying import say

if TYPE_CHECKING:
    from diagnose.casebook.proposing.confirming import Confirming, OnTrial
    from diagnose.knowledge.model import Defect, Knowledge


@click.command(epilog="\b\nExamples:\n  presslore rules trials\n  presslore rules trials --json")
@shop_option
@BOOK
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def trials(shop: Path | None, book: str, as_json: bool) -> int:
    """List what is on trial, each with the cases that confirmed it.

    A case confirms a rule where its cause came first, and a fix for it cured what was seen. Those that the rule was
    learnt from do not count. It confirms a fix that cured it, and a check that spoke for what was cured. Checks and
    fixes are on trial where they came in another shop's bundle.
    """
    from diagnose.casebook.proposing.confirming import confirmed
    from diagnose.knowledge.trial import trial_rules, trial_steps

    stock = shelf.at(shop)
    knowledge, cases = stock.knowledge, _cases(stock, book, shop)
    told = [(defect, rule, confirmed(rule, cases)) for defect, rule in trial_rules(knowledge)]
    steps = [(step, confirmed(step, cases)) for step in trial_steps(knowledge)]
    if as_json:
        rules = [_as_json(rule, named) for _, rule, named in told]
        print_json([*rules, *(_step_as_json(step, named) for step, named in steps)])
        return exits.GOOD
    screen = screen_for(sys.stdout)
    for defect, rule, named in told:
        _card(screen, knowledge, defect, rule, named)
    for step, named in steps:
        _step_card(screen, step, named)
    if not told and not steps:
        screen.line(say("no-rule-is-on-trial"))
    return exits.GOOD


@click.command(epilog="\b\nExample: presslore rules promote faint-colour piece-comes-cold --case 5ab3c7 --case 77e01f")
@click.argument("defect", metavar="DEFECT|STEP", shell_complete=ids("defects"))
@click.argument("cause", required=False, shell_complete=ids("causes"))
@click.option(
    "--case", "named", multiple=True, metavar="ID", help="A case that confirmed it. May be given several times."
)
@shop_option
@BOOK
@click.option("--dry-run", is_flag=True, help="Say what would be written, and write nothing.")
def promote(defect: str, cause: str | None, named: tuple[str, ...], shop: Path | None, book: str, dry_run: bool) -> int:
    """Settle a rule on trial by the cases that confirmed it.

    A check or fix on trial is settled by its id alone. Three cases settle a rule, besides those it was learnt from;
    time never does. Cases named with --case are taken on your word unless the casebook says otherwise; without it, the
    casebook is counted.
    """
    from diagnose.casebook.proposing.confirming import ENOUGH
    from diagnose.cli.rules.taking_turns import in_turn
    from diagnose.problems import PressloreError

    found = shelf.shop_folder(shop)
    if found is None:
        raise PressloreError("there is no shop folder: name one with --shop")
    folder = found
    counted = in_turn(folder, lambda: _noted(defect, cause, named, folder, book, dry_run))
    screen = screen_for(sys.stdout)
    if not counted:
        screen.line(say("no-case-has-confirmed", what=_what(cause)))
        return exits.PROBLEMS
    _ended(screen, counted, ENOUGH, dry_run, _what(cause))
    return exits.GOOD


def _what(cause: str | None) -> str:
    return "rule" if cause else "step"


def _noted(defect: str, cause: str | None, named: tuple[str, ...], folder: Path, book: str, dry_run: bool) -> int:
    """How many cases confirm the rule or step, written down with it as its file stands now."""
    from diagnose.casebook.proposing.confirming import confirmed
    from diagnose.casebook.proposing.promoting import promoted, settled_step
    from diagnose.cli.rules.taking_turns import looked_at

    stock = looked_at(folder, lambda: shelf.at(folder), lambda seen: seen.problems)
    one = _meant(stock.knowledge, defect, cause)
    cases = _cases(stock, book, folder)
    _refuse(one, named, cases, book, folder)
    counted = list(dict.fromkeys([*confirmed(one, None if named else cases), *named]))
    if counted:
        file = promoted(one, counted, folder) if isinstance(one, Rule) else settled_step(one, counted)
        if file.changed and not dry_run:
            file.save()
    return len(counted)


def _meant(knowledge: Knowledge, name: str, cause: str | None) -> OnTrial:
    """The rule on trial from a cause to a defect; without a cause, the check or fix on trial of that name."""
    from diagnose.casebook.proposing.promoting import trial_rule, trial_step
    from diagnose.cli.asking.flags import known_id

    if cause is None:
        return trial_step(knowledge, name)
    defect = known_id(name, knowledge.defects, "defect")
    return trial_rule(knowledge, defect, known_id(cause, knowledge.causes, "cause"))


def _ended(screen: Screen, count: int, enough: int, dry_run: bool, what: str) -> None:
    noted = "would be noted" if dry_run else "noted"
    if count >= enough:
        screen.line(f"{count} confirmed cases {noted}: the {what} {'would be' if dry_run else 'is'} settled.", "good")
    else:
        left = enough - count
        cases = f"{count} confirmed case{'s' if count > 1 else ''} {noted}"
        screen.line(say("more-cases-settle-it", cases=cases, left=left, what=what))


def _refuse(rule: OnTrial, named: tuple[str, ...], cases: Confirming | None, book: str, shop: Path | None) -> None:
    """Raises PressloreError for a case that cannot confirm the rule or step."""
    from diagnose.casebook.proposing.confirming import is_named, learned_from
    from diagnose.problems import PressloreError

    for one in named:
        if not one.strip():
            raise PressloreError("--case: expected the id of a case")
        if any(is_named(known, [one]) or is_named(one, [known]) for known in learned_from(rule)):
            raise PressloreError(f"{one}: the rule was learnt from this case, so it cannot confirm it")
    known = _ids(named, book, shop) if cases else []
    confirming = cases.confirmations(rule) if cases and known else []
    for one in known:
        if not is_named_by_any(one, confirming):
            raise PressloreError(f"{one}: the casebook has this case, and it does not confirm {_because(rule)}")


def _because(one: OnTrial) -> str:
    if isinstance(one, Rule):
        return "the rule: there the cause did not come first, or no fix for it cured what was seen"
    if isinstance(one, Fix):
        return "the fix: something else cured it, or nothing did"
    return "the check: it was not answered there, or did not speak for what was cured"


def is_named_by_any(name: str, cases: list[str]) -> bool:
    """Whether a name goes with one of the cases."""
    from diagnose.casebook.proposing.confirming import is_named

    return any(is_named(case, [name]) for case in cases)


def _ids(named: tuple[str, ...], book: str, shop: Path | None) -> list[str]:
    """Those of the names that the casebook knows a case by."""
    from diagnose.cli.shop import bookcase

    with bookcase.opened(book, shop) as opened:
        return [one for one in named if len(one) >= 4 and opened.ids(one.lower(), most=1)]


def _cases(stock: shelf.Shelf, book: str, shop: Path | None) -> Confirming | None:
    """The casebook as far as it tells what confirms a rule; None where there is none yet."""
    from diagnose.casebook.store.address import is_server
    from diagnose.cli.shop import bookcase

    where = bookcase.place(book, shop)
    if not is_server(where) and not Path(where).exists():
        return None
    from diagnose.casebook.proposing.confirming import InCases

    opened = bookcase.opened(book, shop)
    click.get_current_context().call_on_close(opened.close)
    return InCases(stock.knowledge, stock.shop, opened.cases)


def _card(screen: Screen, knowledge: Knowledge, defect: Defect, rule: Rule, named: list[str]) -> None:
    from diagnose.casebook.proposing.confirming import ENOUGH
    from diagnose.cli.lookup.pages import condition, said_where

    where = condition(knowledge, rule.condition)
    screen.line(f"{knowledge.causes[rule.cause].title} → {defect.title}{where}", "title")
    cases = f": {', '.join(one[-8:] for one in named)}" if named else ""
    screen.hang("-", f"{len(named)} of {ENOUGH} confirmed cases{cases}")
    if len(named) >= ENOUGH:
        screen.hang("-", "enough to settle it:")
        screen.whole(f"  presslore rules promote {defect.id} {rule.cause}")
    screen.line(said_where(rule), "dim")


def _step_card(screen: Screen, step: Check | Fix, named: list[str]) -> None:
    from diagnose.casebook.proposing.confirming import ENOUGH

    cases = f": {', '.join(one[-8:] for one in named)}" if named else ""
    screen.line(step.title, "title")
    screen.hang("-", f"{'fix' if isinstance(step, Fix) else 'check'} from {step.origin}, on trial")
    screen.hang("-", f"{len(named)} of {ENOUGH} confirmed cases{cases}")
    screen.hang("-", "to be read first:" if len(named) < ENOUGH else "enough to settle it:")
    kind = "fixes" if isinstance(step, Fix) else "checks"
    screen.whole(f"  presslore rules promote {step.id}" if len(named) >= ENOUGH else f"  presslore {kind} {step.id}")
    screen.line(str(step.place), "dim")


def _step_as_json(step: Check | Fix, named: list[str]) -> dict[str, Any]:
    from diagnose.casebook.proposing.confirming import ENOUGH

    kind = "fix" if isinstance(step, Fix) else "check"
    return {"kind": kind, "id": step.id, "origin": step.origin, "confirmed_by": named, "needed": ENOUGH}


def _as_json(rule: Rule, named: list[str]) -> dict[str, Any]:
    from diagnose.casebook.proposing.confirming import ENOUGH

    return {
        "kind": "rule",
        "defect": rule.defect,
        "cause": rule.cause,
        "date": rule.date,
        "origin": rule.origin,
        "learned_from": list(rule.learned_from),
        "confirmed_by": named,
        "needed": ENOUGH,
    }
