"""Shell completion: the script to source, and completion of ids with their titles."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click

from diagnose.characters import stripped

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from click.shell_completion import CompletionItem

    from diagnose.knowledge.model import Entry, Knowledge

    Completer = Callable[[click.Context, click.Parameter, str], list[CompletionItem]]


def ids(kind: str) -> Completer:
    """Completes ids of one kind (``defects``, ``checks``, ...; ``answers`` for CHECK=OUTCOME, ``facts`` for
    FACT=VALUE)."""

    def complete(ctx: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        from click.shell_completion import CompletionItem

        from diagnose.cli.shop import shelf
        from diagnose.problems import PressloreError

        try:
            knowledge = shelf.knowledge(ctx.params.get("shop"))
        except PressloreError:
            return []
        pairs = {"answers": _answers, "facts": _facts}
        found = pairs[kind](knowledge) if kind in pairs else _titles(getattr(knowledge, kind))
        return [CompletionItem(name, help=_line(title)) for name, title in found if name.startswith(incomplete)]

    return complete


def _line(title: str) -> str:
    """A title in one line: the shell takes each line for something of its own."""
    return " ".join(stripped(title, lines=True).split())


def _titles(entries: Mapping[str, Entry]) -> Iterator[tuple[str, str]]:
    return ((entry.id, entry.title) for entry in entries.values())


def _answers(knowledge: Knowledge) -> Iterator[tuple[str, str]]:
    for check in knowledge.checks.values():
        for outcome in check.outcomes:
            yield f"{check.id}={outcome.id}", outcome.looks


def _facts(knowledge: Knowledge) -> Iterator[tuple[str, str]]:
    for fact in knowledge.facts.values():
        for value in fact.one_of or (("yes", "no") if fact.yes_no else ("",)):
            yield f"{fact.id}={value}", fact.title


@click.command(epilog='\b\nExample: eval "$(presslore completion bash)"')
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
@click.pass_context
def completion(ctx: click.Context, shell: str) -> None:
    """Print a script that completes commands, options and ids."""
    from click.shell_completion import get_completion_class

    from diagnose.cli.terminal.screen import screen_for

    kind = get_completion_class(shell)
    assert kind is not None
    made = kind(ctx.find_root().command, {}, "presslore", "_PRESSLORE_COMPLETE")
    screen_for(sys.stdout).document([made.source(), "\n"])
