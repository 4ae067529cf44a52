"""Where the command finds its knowledge: what ships, with the shop's own folder laid over it."""

import os
import stat
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path

import click

from diagnose.cli.terminal.screen import screen_for
from diagnose.knowledge.loading import SHOP_FILE, load, load_shop, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.knowledge.taken import RECORD
from diagnose.problems import Place, PressloreError, Problem
from diagnose.speech.saying import say

SHOP_VARIABLE = "PRESSLORE_SHOP"
PARTS = ("rules", "kb")
OWN_FILES = (SHOP_FILE, RECORD, "mkdocs.yml")
TAKEN = "the knowledge taken from the shelf"
MOST_PARTS = 5_000  # files and folders of a shop that are looked at; one with more is refused when it is read


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """All that a command works with. ``folder``: the shop's, None where there is none. ``places``: the shop's files
    that were left out, ``problems``: why, with ``more`` that are only counted."""

    knowledge: Knowledge
    shop: Shop = field(default_factory=Shop)
    folder: Path | None = None
    places: tuple[Place, ...] = ()
    problems: tuple[Problem, ...] = ()
    more: int = 0

    @property
    def files_left_out(self) -> tuple[str, ...]:
        """The shop's files that were left out, as a reader finds them."""
        return tuple(place.file for place in self.places)


def at(named: Path | None = None) -> Shelf:
    """The knowledge with the shop's laid over it: the shop of the folder or file named, else of the one that the
    environment names, else of a shop.yaml in this folder or above it, where it is not somebody else's; without one,
    what ships.

    Files of the shop that do not serve are left out. Raises PressloreError where a shop that was named is not there.
    """
    shelf = _at(named)
    if context := click.get_current_context(silent=True):
        context.meta[TAKEN] = shelf.knowledge
    return shelf


def taken() -> Knowledge | None:
    """The knowledge that this command works with; None where it has taken none from the shelf yet."""
    context = click.get_current_context(silent=True)
    return context.meta.get(TAKEN) if context else None


def in_force() -> Knowledge:
    """The knowledge of the shop that this command was given or stands in; what ships where that cannot be had."""
    context = click.get_current_context(silent=True)
    try:
        return at(context.params.get("shop") if context else None).knowledge
    except PressloreError:
        return shipped()


def _at(named: Path | None) -> Shelf:
    found = find_shop(named)
    if found is None:
        return Shelf(knowledge=shipped())
    stock = load_shop(found)
    return Shelf(
        knowledge=stock.knowledge,
        shop=stock.shop,
        folder=_folder(found),
        places=stock.left_out,
        problems=stock.problems,
        more=stock.more,
    )


def shipped() -> Knowledge:
    """The shipped knowledge, from the compiled cache where it is current. Raises PressloreError."""
    return load(shipped_folder())


def knowledge(named: Path | None = None) -> Knowledge:
    """What ships with the shop's own laid over it."""
    return at(named).knowledge


def shop(named: Path | None = None) -> Shop:
    """What the shop says of itself: its prices, units and presses."""
    return at(named).shop


def shop_folder(named: Path | None = None) -> Path | None:
    """The shop's folder, None where there is none."""
    found = find_shop(named)
    return found and _folder(found)


def find_shop(named: Path | None = None) -> Path | None:
    """The shop's folder or file, None where there is none: one that nobody named must be this person's own or the
    system's. Raises PressloreError where one was named in which there is no shop."""
    environment = os.environ.get(SHOP_VARIABLE)
    wanted = named or (Path(environment) if environment else None)
    if wanted is None:
        found = _above()
        return found if found is None or not _is_strange(found) else None
    if wanted.is_file() or any((wanted / part).exists() for part in (SHOP_FILE, *PARTS)):
        return wanted
    wrong = "there is no shop here" if wanted.exists() else "this is not there"
    expected = "a shop.yaml, or a folder with shop.yaml, rules/ or kb/"
    hint = "presslore shop new lays one out"
    raise PressloreError([Problem(place=Place(str(wanted)), code="no-shop", wrong=wrong, expected=expected, hint=hint)])


def _folder(shop: Path) -> Path:
    return shop.parent if shop.is_file() else shop


def _above() -> Path | None:
    """The nearest folder with a shop.yaml, from the working folder upwards; none where that is gone."""
    try:
        folder = Path.cwd()
    except OSError:
        return None
    return next((one for one in (folder, *folder.parents) if _holds_shop(one)), None)


def _holds_shop(folder: Path) -> bool:
    """Whether a shop.yaml lies here, be it a link to what cannot be looked at; a folder that keeps us out has none."""
    file = folder / SHOP_FILE
    try:
        return stat.S_ISREG(file.lstat().st_mode) or (file.is_symlink() and _leads_to_file(file))
    except OSError:
        return False


def _leads_to_file(link: Path) -> bool:
    try:
        return link.is_file()
    except OSError:  # there is something behind it; whose it is will be asked next
        return True


def _is_strange(folder: Path) -> bool:
    """Whether a shop that nobody named may be somebody else's; it is said once for each call.

    Anybody may lay a shop.yaml into a folder that all may write to, or one round a folder that others work in.
    """
    whose = _whose(folder)
    if whose:
        context = click.get_current_context(silent=True)
        said = context.meta if context else {}
        if SHOP_FILE not in said:
            said[SHOP_FILE] = folder
            note = say("shop-is-not-used", folder=folder / SHOP_FILE, whose=whose, name=folder)
            screen_for(sys.stderr).line(note, "caution")
    return bool(whose)


def _whose(folder: Path) -> str:
    """Why a shop is not sure to be this person's or the system's own; "" where it is."""
    if not hasattr(os, "geteuid"):
        return ""
    try:
        return next(filter(None, map(_strangeness, islice(_parts(folder), MOST_PARTS))), "")
    except OSError:
        return "it cannot be looked at"


def _parts(folder: Path) -> Iterator[Path]:
    """Everything of a shop that is read: the folder, its own files, and all below rules/ and kb/."""
    yield folder
    yield from (path for name in OWN_FILES if os.path.lexists(path := folder / name))
    for part in PARTS:
        for parent, folders, files in os.walk(folder / part, onerror=_raise_unless_gone):
            yield Path(parent)
            yield from (Path(parent, name) for name in (*folders, *files))


def _raise_unless_gone(error: OSError) -> None:
    if not isinstance(error, FileNotFoundError):
        raise error


def _strangeness(path: Path) -> str:
    """Who else may change a file or folder, or what a link leads to; "" where nobody may. Raises OSError."""
    real = path.resolve()
    looked_at = [path.lstat(), real.stat(), *([real.parent.stat()] if path.is_symlink() else [])]
    if not {found.st_uid for found in looked_at} <= {os.geteuid(), 0}:
        return f"it belongs to somebody else{'' if path.name == SHOP_FILE or path.is_dir() else f' ({path.name})'}"
    if any(_open_to_others(found) for found in looked_at if not stat.S_ISLNK(found.st_mode)):
        where = "its folder" if path.is_dir() else path.name
        return f"anybody may write to {where}"
    return ""


def _open_to_others(found: os.stat_result) -> bool:
    """Whether others than the owner and the group this person works in may write."""
    group = found.st_mode & stat.S_IWGRP and found.st_gid not in (os.getegid(), 0)
    return bool(found.st_mode & stat.S_IWOTH or group)


def state_folder() -> Path:
    """Where sessions that were left are kept."""
    base = os.environ.get("XDG_STATE_HOME") or Path.home() / ".local" / "state"
    return Path(base) / "presslore"
