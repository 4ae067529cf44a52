"""``presslore rules new``: a new rule, by a dialogue, by flags or from a draft file."""

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from diagnose.casebook.proposing.fields import FIELDS, Field
from diagnose.cli import exits
from diagnose.cli.options import shop_option
from diagnose.cli.terminal.screen import both_terminals, screen_for
from diagnose.speech.saying import say

EXAMPLES = (
    "\b\nExamples:\n"
    "  presslore rules new\n"
    "  presslore rules new --write-draft draft.yaml\n"
    "  presslore rules new --draft draft.yaml --dry-run\n"
    "  presslore rules new --defect faint-colour --cause damp-item --brings rarely"
)


def _flags(command: Callable[..., Any]) -> Callable[..., Any]:
    """The command with a flag for every field of a draft."""
    for field in reversed([*FIELDS.values()]):
        command = _flag(field)(command)
    return command


def _flag(field: Field) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    several = " May be given several times." if field.many else ""
    return click.option(
        f"--{field.name}", field.name.replace("-", "_"), multiple=field.many, help=f"{field.about}{several}"
    )


@click.command("new", epilog=EXAMPLES)
@_flags
@click.option("--draft", "draft_file", type=click.Path(path_type=Path), help="Take what a draft file says.")
@click.option(
    "--write-draft", "write_draft", type=click.Path(path_type=Path), help="Write an empty draft to fill in, and stop."
)
@shop_option
@click.option("--dry-run", is_flag=True, help="Show what would be written, and write nothing.")
@click.option("--yes", is_flag=True, help="Keep the rule without asking, where everything is in order.")
@click.option("--json", "as_json", is_flag=True, help="Print the rule and what it changes as JSON, and ask nothing.")
def new(
    draft_file: Path | None,
    write_draft: Path | None,
    shop: Path | None,
    dry_run: bool,
    yes: bool,
    as_json: bool,
    **fields: Any,
) -> int:
    """Write down what the shop has found out as a new rule.

    In a terminal this is a dialogue about the defect, its cause, the fix and one worked case. Before anything is
    kept, everything is checked, and you are told which worked cases are answered otherwise because of it. The rule
    is on trial at first: it counts and is marked as such.
    """
    from diagnose.cli.rules.keeping import Wanted, carry_out

    if write_draft:
        return _write_empty(write_draft)
    from diagnose.casebook.proposing.draft import Draft, read_draft

    said = Draft.of({name.replace("_", "-"): value for name, value in fields.items()})
    draft = said.over(read_draft(draft_file)) if draft_file else said
    somebody = both_terminals() and not (yes or dry_run or as_json)
    return carry_out(Wanted(draft=draft, shop=shop, keep=yes and not dry_run, somebody=somebody, as_json=as_json))


def _write_empty(path: Path) -> int:
    from diagnose.casebook.proposing.draft import empty_draft
    from diagnose.files.writing import write_new

    write_new(path, empty_draft().encode())
    screen = screen_for(sys.stdout)
    screen.line(say("an-empty-draft-fill"))
    screen.whole(f"  presslore rules new --draft {path} --dry-run")
    return exits.GOOD
