"""``presslore rules share|take``: settled rules out of one shop's folder and over another's."""

import os
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

import click

from diagnose.cli import exits, shelf
from diagnose.cli.options import shop_option
from diagnose.cli.prompts import ask
from diagnose.cli.screen import Screen, both_terminals, screen_for
from diagnose.knowledge.loading import SHOP_FILE, shipped_folder
from diagnose.knowledge.shop import Shop
from diagnose.problems import PressloreError

if TYPE_CHECKING:
    from diagnose.casebook.sharing.picking import Picked
    from diagnose.casebook.sharing.taking import Taking


@click.command(epilog="\b\nExample: presslore rules share --shop my-shop -o my-shop.zip")
@click.option(
    "-o", "--out", required=True, type=click.Path(dir_okay=False, path_type=Path), help="The bundle to write."
)
@click.option("--force", is_flag=True, help="Take the place of a file that is there.")
@shop_option
def share(out: Path, force: bool, shop: Path | None) -> int:
    """Write your settled rules into a bundle for another shop.

    It holds the rules and what they lean on: causes, checks, fixes, cautions, facts and sources of your own. Your
    cases, prices and names stay with you, and so do rules on trial.
    """
    from diagnose.casebook.sharing.sharing import share as bundled

    folder = _folder(shop)
    if out.exists() and not force:
        raise PressloreError(f"{out}: there is such a file already: name another, or add --force")
    ours = shelf.shop(folder) if (folder / SHOP_FILE).is_file() else None
    shared = bundled(folder, shipped_folder(), (ours.name, *ours.address, ours.handbook) if ours else ())
    _write(out, shared.data)
    _told(screen_for(sys.stdout), out, shared.picked)
    return exits.GOOD


def _folder(named: Path | None) -> Path:
    folder = shelf.shop_folder(named)
    if folder is None:
        raise PressloreError("there is no shop folder here: name it with --shop, or go to the folder of your shop.yaml")
    return folder


def _names(shop: Shop) -> tuple[str, ...]:
    """What must not leave the shop: its name and address, and what it calls its presses."""
    return shop.name, *shop.address, shop.handbook, *(press.title for press in shop.presses.values())


def _write(out: Path, data: bytes) -> None:
    """Write a file whole or not at all. Raises PressloreError."""
    try:
        handle, fresh = tempfile.mkstemp(dir=out.parent, prefix=f".{out.name}.")
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            os.chmod(fresh, 0o644)
            os.replace(fresh, out)
        except BaseException:
            os.unlink(fresh)
            raise
    except OSError as error:
        raise PressloreError(f"{out}: cannot be written ({error.strerror})") from error


def _told(screen: Screen, out: Path, picked: "Picked") -> None:
    screen.line(f"{_number(picked.rules, 'settled rule')} written to {out}:")
    for name in picked.files:
        screen.hang("-", name)
    for reason, number in picked.left.items():
        screen.line(f"{_number(number, 'rule')} left out: {reason}.", "dim")
    if picked.versions:
        screen.line(f"Left out too: your version of {_number(picked.versions, 'entry', 'entries')} that ships.", "dim")


def _number(number: int, one: str, several: str = "") -> str:
    return f"{number} {one if number == 1 else several or one + 's'}"


@click.command(
    epilog="\b\nExamples:\n  presslore rules take quay.zip --shop my-shop --dry-run\n"
    "  presslore rules take quay.zip --shop my-shop --yes"
)
@click.argument("bundle", type=click.Path(path_type=Path))
@shop_option
@click.option("--dry-run", is_flag=True, help="Say what it would do, and write nothing.")
@click.option("--yes", is_flag=True, help="Take it without asking, where everything is in order.")
def take(bundle: Path, shop: Path | None, dry_run: bool, yes: bool) -> int:
    """Lay another shop's bundle over your own folder.

    Everything is tried on a copy first: a bundle that is damaged, that holds what it should not, that clashes with
    an id of yours or after which a worked case no longer holds is refused, and nothing is written.
    """
    from diagnose.casebook.sharing.taking import land, plan
    from diagnose.casebook.sharing.unpacking import read_bundle

    folder, screen = _folder(shop), screen_for(sys.stdout)
    taking = plan(read_bundle(bundle), str(bundle), folder, shipped_folder())
    if taking.there:
        screen.line(f"{bundle} was taken already: its files stand in {folder}.")
        return exits.GOOD
    _show(screen, bundle, taking)
    if dry_run:
        screen.line("Nothing was written.")
        return exits.GOOD
    if not yes and not _agreed(screen):
        return exits.PROBLEMS
    land(taking)
    screen.line(f"Taken into {folder}. To be rid of it, delete these files.", "good")
    return exits.GOOD


def _show(screen: Screen, bundle: Path, taking: "Taking") -> None:
    from diagnose.casebook.comparing import compare
    from diagnose.cli.rules_diff import show_rules, show_totals

    screen.line(f"{bundle}, {taking.bundle.date}", "title")
    changes = compare(taking.before, taking.after, Shop())
    show_rules(screen, taking.before, taking.after, changes)
    for rule in taking.instead:
        screen.line(f"In place of the rule that ships: {rule.cause} → {rule.defect}", "caution")
    screen.line()
    show_totals(screen, changes, False)
    screen.line()
    screen.line("Its files, to be read before they are relied on:")
    for name in taking.files:
        screen.hang("-", name)


def _agreed(screen: Screen) -> bool:
    if not both_terminals():
        screen_for(sys.stderr).line("Nothing was written: add --yes to take it, or --dry-run to look only.")
        return False
    reply = ask(screen, numbers=0, letters=("y", "n"), names={"y": "take it", "n": "leave it"})
    if reply.letter != "y":
        screen.line("Nothing was written.")
    return reply.letter == "y"
