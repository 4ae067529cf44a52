"""``presslore rules``: looking after the rule set."""

import sys
from pathlib import Path

import click

from diagnose.cli import exits
from diagnose.cli.options import shop_option
from diagnose.cli.rules.bundles import share, take
from diagnose.cli.rules.diff import diff
from diagnose.cli.rules.new import new
from diagnose.cli.rules.trials import promote, trials
from diagnose.cli.shop import shelf
from diagnose.cli.terminal.screen import progress, screen_for
from diagnose.knowledge.loading import look_over, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.problems import and_more, shown
from diagnose.speech.saying import say


@click.group(epilog="\b\nExample: presslore rules check")
def rules() -> None:
    """Look after the rules and the facts they lean on."""


@rules.command(epilog="\b\nExamples:\n  presslore rules check\n  presslore rules check my-shop")
@click.argument("folder", required=False, type=click.Path(exists=True, file_okay=False, path_type=Path))
@shop_option
def check(folder: Path | None, shop: Path | None) -> int:
    """Check every file, rule and worked case.

    A step is planned for each defect as well: what is clean serves in a dialogue. Problems are named at once, each
    with its file, line and column; past a hundred, the rest is counted.

    FOLDER holds kb/ and rules/ and is laid over what ships; without it, what ships is checked, with the shop's
    own laid over it where there is a shop.
    """
    from diagnose.reasoning.serving import cannot_be_planned
    from diagnose.reasoning.worked_cases import broken_cases

    own = folder or shelf.find_shop(shop)
    folders = [shipped_folder(), *([own] if own else [])]
    seen = look_over(*folders)
    stock, found = seen.stock, seen.found
    if stock is not None:
        with progress("Planning") as far:
            found.take(cannot_be_planned(stock.knowledge, stock.shop.rates, far))
        with progress(say("worked-cases")) as far:
            found.take(problem for _, _, problem in broken_cases(stock.knowledge, far))
    screen = screen_for(sys.stdout)
    if stock is not None and not found:
        screen.line(say("all-clean", counts=counts(stock.knowledge)))
        return exits.GOOD
    chosen, more = shown(found.problems, found.more, seen.own)
    for problem in chosen:
        screen.whole(str(problem))
    if more:
        screen.line(and_more(more))
    many = len(chosen) + more
    screen_for(sys.stderr).line(f"{many:,} problem{'s' if many != 1 else ''}.")
    return exits.PROBLEMS


rules.add_command(new)
rules.add_command(trials)
rules.add_command(promote)
rules.add_command(diff)
rules.add_command(share)
rules.add_command(take)


def counts(knowledge: Knowledge) -> str:
    """How much there is of everything, in one line."""
    defects = knowledge.defects.values()
    numbers = {
        "defects": len(defects),
        "causes": len(knowledge.causes),
        "checks": len(knowledge.checks),
        "fixes": len(knowledge.fixes),
        "rules": sum(len(defect.rules) for defect in defects),
        "worked cases": sum(len(defect.cases) for defect in defects),
        "items": len(knowledge.items),
        "care notes": len(knowledge.care),
    }
    return ", ".join(f"{number} {name}" for name, number in numbers.items())
