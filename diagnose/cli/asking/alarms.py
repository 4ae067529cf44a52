"""A danger that was typed is told before anything else: what to do now, whom to call, and nothing more."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from typing import TYPE_CHECKING

import click

from diagnose.cli import exits
from diagnose.cli.terminal.screen import Screen, screen_for
from diagnose.speech.saying import say

if TYPE_CHECKING:
    from diagnose.knowledge.model import Danger, Knowledge

FEWEST = 3  # letters: what is shorter is a choice


def sounded(screen: Screen, typed: str) -> bool:
    """Whether a danger was typed as an answer. Then it stands on the screen, and the answer counts for nothing."""
    if sum(map(str.isalpha, typed)) < FEWEST:
        return False
    from diagnose.cli.shop import shelf
    from diagnose.dialogue.alarm import alarm
    from diagnose.reasoning.words.dangers import dangers

    knowledge = shelf.taken() or (shelf.in_force() if dangers(typed) else None)
    danger = alarm(knowledge, typed) if knowledge else None
    if danger is not None:
        danger_card(screen, danger)
        screen.line(say("danger-over"), "dim")
    return danger is not None


def stop_for(knowledge: Knowledge, texts: Iterable[str]) -> None:
    """Tell of the first danger among words that were given with a call, and end it there. Raises click's Exit."""
    from diagnose.dialogue.alarm import alarm

    for danger in filter(None, (alarm(knowledge, text) for text in texts)):
        danger_card(screen_for(sys.stderr), danger)
        raise click.exceptions.Exit(exits.PROBLEMS)


def danger_card(screen: Screen, danger: Danger) -> None:
    """What to do now, in order; whom to call; what not to do."""
    screen.rule()
    screen.line(danger.title.upper(), "bad")
    screen.line()
    for number, step in enumerate(danger.steps, 1):
        screen.hang(f"{number}", step, style="key", indent=1)
    screen.line()
    screen.hang(say("danger-call"), danger.call, style="bad")
    screen.line()
    for never in danger.never:
        screen.hang("!", never, style="caution", indent=1)
    screen.rule()
