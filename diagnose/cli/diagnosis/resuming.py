"""Which of the saved dialogues is gone on with, and being rid of one."""

import os
import sys
from collections.abc import Sequence
from pathlib import Path

import click

from diagnose.cli import exits
from diagnose.cli.asking.prompts import ask
from diagnose.cli.shop.shelf import state_folder
from diagnose.cli.terminal.screen import Screen, screen_for
from diagnose.dialogue.session import Session
from diagnose.dialogue.waiting import MANY, Waiting, all_waiting, how_many, place_of
from diagnose.knowledge.model import Knowledge
from diagnose.problems import PressloreError
from diagnose.speech.saying import say

CHOOSE, LAST = "choose", "last"  # what --resume means without a name, and a name for the newest
NONE = "no session was left that could be gone on with: begin one with presslore diagnose"
LETTERS = {"d": "delete one", "n": "none of them"}


def chosen(named: str, knowledge: Knowledge, screen: Screen | None) -> Path:
    """The file of the dialogue that ``--resume`` names: by its name, as a file, as the last one, or, where nothing is
    named, the only one. Of several one is chosen on the screen; where there is none (nobody to ask) they are listed
    in the PressloreError that is raised. Raises click.Abort where the person leaves or wants none."""
    if named not in (CHOOSE, LAST):
        return _named(named)
    waiting = _readable()
    if len(waiting) == 1 or named == LAST:
        return waiting[0].path
    if screen is None:
        told = [f"  {one.name}: {about(one, knowledge)}" for one in waiting]
        raise PressloreError(
            "\n".join(["several dialogues are saved; name one: presslore diagnose --resume NAME", *told])
        )
    try:
        return _asked(screen, knowledge, waiting)
    except EOFError:
        raise click.Abort from None


def _named(named: str) -> Path:
    place = place_of(state_folder(), named)
    if Path(named).name == named and os.path.isfile(place):
        return place
    if not os.path.exists(named):
        raise PressloreError(
            f"{named}: no saved dialogue has this name, and there is no such file; presslore diagnose --resume lists "
            "those there are"
        )
    return Path(named)


def _readable() -> list[Waiting]:
    """The saved dialogues, the newest first; says which files cannot be read. Raises PressloreError where there is
    nothing to go on with."""
    found = all_waiting(state_folder())
    err = screen_for(sys.stderr)
    for one in found:
        if one.wrong:
            err.line(say("left-out", wrong=one.wrong), "caution")
    readable = [one for one in found if not one.wrong]
    if not readable:
        raise PressloreError(NONE)
    return readable


def about(one: Waiting, knowledge: Knowledge) -> str:
    """When a dialogue was saved and what it is about: ``2026-11-25 14:05, Tea towel: Ghosting``."""
    session = one.saved.session if one.saved else Session()
    item = knowledge.items.get(session.item)
    seen = [knowledge.defects[each].title if each in knowledge.defects else each for each in session.evidence.seen]
    where = f", press {session.press}" if session.press else ""
    ended = " (ended; its case is still to be kept)" if session.over else ""
    what = item.title if item else session.item or say("unnamed-item")
    return f"{one.at:%Y-%m-%d %H:%M}, {what}{where}: {', '.join(seen) or 'nothing seen yet'}{ended}"


def _asked(screen: Screen, knowledge: Knowledge, waiting: list[Waiting]) -> Path:
    while waiting:
        screen.line(say("which-one-to-go-on-with"), "title")
        _list(screen, knowledge, waiting)
        reply = ask(screen, numbers=len(waiting), letters=tuple(LETTERS), names=LETTERS, more="or its name")
        if reply.letter == "n":
            break
        if reply.letter == "d":
            waiting = _delete_one(screen, waiting)
        elif found := _by(waiting, reply.number, reply.words):
            return found.path
        else:
            screen.line(say("i-do-not-know-which-of-these"))
    raise click.Abort


def _list(screen: Screen, knowledge: Knowledge, waiting: Sequence[Waiting]) -> None:
    for number, one in enumerate(waiting, 1):
        screen.hang(f"{number:>2}", f"{about(one, knowledge)} [{one.name}]", style="key")


def _delete_one(screen: Screen, waiting: list[Waiting]) -> list[Waiting]:
    """The dialogues without the one that the person names, which is deleted."""
    screen.line(say("which-one-to-delete"), "title")
    reply = ask(screen, numbers=len(waiting), letters=("n",), names=LETTERS, more="or its name")
    one = _by(waiting, reply.number, reply.words)
    if one is None:
        screen.line(say("nothing-was-deleted"))
        return waiting
    _delete(one.name, one.path)
    screen.line(say("deleted", name=one.name))
    return [each for each in waiting if each is not one]


def _by(waiting: Sequence[Waiting], number: int, name: str) -> Waiting | None:
    if number:
        return waiting[number - 1]
    return next((one for one in waiting if one.name == name), None)


def discard(names: Sequence[str]) -> int:
    """Delete saved dialogues by their names, all of them or, where one is not there, none. Raises PressloreError."""
    places = {name: place_of(state_folder(), name) for name in names}
    for name, place in places.items():
        if Path(name).name != name or not os.path.isfile(place):
            raise PressloreError(f"{name}: no saved dialogue has this name; presslore diagnose --resume lists them")
    for name, place in places.items():
        _delete(name, place)
        screen_for(sys.stdout).line(say("deleted", name=name))
    return exits.GOOD


def _delete(name: str, place: Path) -> None:
    try:
        place.unlink(missing_ok=True)
    except OSError as error:
        raise PressloreError(f"{name}: cannot be deleted ({place}: {error.strerror})") from error


def tell_of_many(screen: Screen) -> None:
    """Say where so many dialogues are saved that some will not be wanted any more. None goes by itself."""
    if (number := how_many(state_folder())) >= MANY:
        screen.line(
            say("many-dialogues-saved", number=number),
            "dim",
        )
