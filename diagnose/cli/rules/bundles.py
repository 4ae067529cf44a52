"""``presslore rules share|take``: settled rules out of one shop's folder and over another's."""

import os
import sys
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from diagnose.cli import exits
from diagnose.cli.asking.prompts import ask
from diagnose.cli.options import shop_option
from diagnose.cli.rules import bundle_pages
from diagnose.cli.shop import shelf
from diagnose.cli.terminal.screen import Screen, both_terminals, print_json, screen_for
from diagnose.files.writing import write_over
from diagnose.knowledge.loading import SHOP_FILE, shipped_folder
from diagnose.knowledge.shop import Shop
from diagnose.knowledge.taken import fitting, who, wrong_with_name
from diagnose.problems import PressloreError
from diagnose.speech.saying import say

if TYPE_CHECKING:
    from diagnose.casebook.sharing.bundle import Bundle
    from diagnose.casebook.sharing.sharing import SharedBundle
    from diagnose.casebook.sharing.taking import Taking

TRIES = 8  # that a taking is tried anew while others change the shop's files


@click.command(
    epilog="\b\nExamples:\n  presslore rules share --shop my-shop -o my-shop.zip\n"
    '  presslore rules share -o towels.zip --as "A shop on the coast"'
)
@click.option(
    "-o", "--out", required=True, type=click.Path(dir_okay=False, path_type=Path), help="The bundle to write."
)
@click.option("--force", is_flag=True, help="Take the place of a bundle that is there.")
@click.option("--as", "name", help="The name your shop goes by in the bundle (its own name).")
@shop_option
def share(out: Path, force: bool, name: str | None, shop: Path | None) -> int:
    """Write your settled rules into a bundle for another shop.

    It holds the rules and what they lean on: causes, checks, fixes, cautions, facts and sources of your own, under the
    name of your shop. Your cases, prices and addresses stay with you, and so do rules on trial. Read the digest out
    to whoever takes it: so they know that nobody put another in its place.
    """
    from diagnose.casebook.sharing.bundle import Sender
    from diagnose.casebook.sharing.identity import keep, known_id, new_id
    from diagnose.casebook.sharing.sharing import share as bundled

    folder = _folder(shop)
    ours = shelf.shop(folder) if (folder / SHOP_FILE).is_file() else None
    called = _called(name, ours)
    if os.path.lexists(out) and not force:
        raise PressloreError(f"{out}: there is such a file already: name another, or add --force")
    kept_back = (ours.name, *ours.address, ours.handbook) if ours else ()
    sender = Sender(name=called, shop=known_id(folder) or new_id())
    shared = bundled(folder, shipped_folder(), kept_back, sender)
    keep(folder, sender.shop)
    write_over(out, shared.data, may_replace=_is_bundle)
    _told(screen_for(sys.stdout), out, shared)
    return exits.GOOD


def _called(name: str | None, ours: Shop | None) -> str:
    """What the shop goes by in its bundle."""
    if name is None:
        return fitting(ours.name) if ours else ""
    if wrong := wrong_with_name(name):
        raise click.UsageError(f"--as: {wrong}")
    return name


def _is_bundle(path: Path) -> bool:
    """Whether a file is a bundle, or at least a zip file, so that another may take its place."""
    with suppress(OSError), path.open("rb") as file:
        return file.read(4) in (b"PK\x03\x04", b"")
    return False


def _folder(named: Path | None) -> Path:
    folder = shelf.shop_folder(named)
    if folder is None:
        raise PressloreError("there is no shop folder here: name it with --shop, or go to the folder of your shop.yaml")
    return folder


def _told(screen: Screen, out: Path, shared: "SharedBundle") -> None:
    picked, bundle = shared.picked, shared.bundle
    screen.line(f"{_number(picked.rules, 'settled rule')} written to {out}:")
    for name in picked.files:
        screen.hang("-", name)
    for reason, number in picked.left.items():
        screen.line(say("left-out-of-the-bundle", number=_number(number, "rule"), reason=reason), "dim")
    if picked.versions:
        screen.line(say("left-out-your-version", number=_number(picked.versions, "entry", "entries")), "dim")
    screen.line(say("digest-to-read-out"))
    screen.whole(f"  {bundle.spoken}")
    screen.line(say("bundle-goes-by", who=who(bundle.sender.name), shop=bundle.sender.shop))


def _number(number: int, one: str, several: str = "") -> str:
    return f"{number} {one if number == 1 else several or one + 's'}"


@click.command(
    epilog="\b\nExamples:\n  presslore rules take quay.zip --shop my-shop --dry-run\n"
    "  presslore rules take quay.zip --shop my-shop --yes --digest 4821-0937-5520-1184-7302\n"
    "  presslore rules take --undo --shop my-shop"
)
@click.argument("bundle", required=False, type=click.Path(path_type=Path))
@shop_option
@click.option("--dry-run", is_flag=True, help="Say what it would do, and write nothing.")
@click.option("--yes", is_flag=True, help="Take it without asking, where everything is in order.")
@click.option("--digest", help="The digest that the shop read out: any other bundle is refused.")
@click.option("--undo", is_flag=True, help="Take the last taking back.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON. Without --yes, nothing is written.")
def take(
    bundle: Path | None, shop: Path | None, dry_run: bool, yes: bool, digest: str | None, undo: bool, as_json: bool
) -> int:
    """Lay another shop's bundle over your own folder.

    Everything is tried on a copy first: a bundle that is damaged, that holds what it should not, that leaves out a
    caution, that clashes with an id of yours or after which a worked case no longer holds is refused, and nothing is
    written. Its rules begin on trial. A newer bundle takes the place of the earlier one of the same shop: that is
    asked, and --yes alone does not say so, but --digest does.
    """
    if undo == (bundle is not None) or (undo and (dry_run or digest or as_json)):
        raise click.UsageError("expected a BUNDLE, or --undo alone")
    folder = _folder(shop)
    if bundle is None:
        return _take_back(folder)
    from diagnose.casebook.sharing.bundle import same_digest
    from diagnose.casebook.sharing.unpacking import read_bundle

    read = read_bundle(bundle)
    if digest and not same_digest(digest, read.digest):
        raise PressloreError(
            f"{bundle}: not taken, its digest is {read.spoken}, another than the one given. Nothing was written; "
            "ask the shop to send it again another way."
        )
    offer = Offer(bundle, bool(digest), yes and not dry_run, as_json)
    taking = _planned(read, str(bundle), folder)
    return _as_data(offer, taking) if as_json else _talked_over(offer, taking, dry_run)


def _planned(bundle: "Bundle", shown: str, folder: Path) -> "Taking":
    """What the bundle does to the shop's folder. What was refused on files that somebody changed while they were read
    is tried anew."""
    from diagnose.casebook.sharing.shop_copy import state_of
    from diagnose.casebook.sharing.taking import plan

    for left in reversed(range(TRIES)):
        state = state_of(folder, shipped_folder())
        try:
            return plan(bundle, shown, folder, shipped_folder())
        except PressloreError:
            if not left or state_of(folder, shipped_folder()) == state:
                raise
    raise AssertionError("the last try returns or raises")


@dataclass(frozen=True, slots=True)
class Offer:
    """A bundle as it was named. ``vouched``: its digest was given. ``yes``: it is to be taken without asking."""

    path: Path
    vouched: bool
    yes: bool
    as_json: bool


def _talked_over(offer: Offer, taking: "Taking", dry_run: bool) -> int:
    screen = screen_for(sys.stdout)
    if taking.there:
        screen.line(say("bundle-taken-already", path=offer.path, folder=taking.folder))
        return exits.GOOD
    _show(screen, offer, taking)
    if dry_run:
        screen.line(say("nothing-was-written"))
        return exits.GOOD
    if not _may(offer, taking) and not _agreed(screen, offer, taking):
        return exits.PROBLEMS
    landed = _land(offer, taking)
    screen.line(say("bundle-taken", folder=landed.folder), "good")
    screen.line(say("how-to-take-it-back"))
    return exits.GOOD


def _as_data(offer: Offer, taking: "Taking") -> int:
    agreed = not taking.there and offer.yes and _may(offer, taking)
    landed = _land(offer, taking) if agreed else taking
    print_json(bundle_pages.taking_json(str(offer.path), landed, agreed))
    if offer.yes and not agreed and not taking.there:
        screen_for(sys.stderr).line(say("not-taken-without-digest"))
        return exits.PROBLEMS
    return exits.GOOD


def _may(offer: Offer, taking: "Taking") -> bool:
    """Whether it may be taken without asking: a bundle in another's place only where its digest was given."""
    other = taking.replaces is not None and taking.replaces.digest != taking.bundle.digest
    return offer.yes and (offer.vouched or not other)


def _land(offer: Offer, taking: "Taking") -> "Taking":
    """Take it. Where somebody changed the shop's files meanwhile, it is tried anew on what stands there now, and taken
    if it does there just what was shown."""
    from diagnose.casebook.sharing.landing import ChangedMeanwhile, land

    for left in reversed(range(TRIES)):
        try:
            land(taking)
        except ChangedMeanwhile:
            anew = _planned(taking.bundle, str(offer.path), taking.folder)
            if not left or anew.there or (anew.replaces, anew.instead) != (taking.replaces, taking.instead):
                raise
            taking = anew
        else:
            break
    return taking


def _take_back(folder: Path) -> int:
    from diagnose.casebook.sharing.landing import take_back

    gone = take_back(folder, shipped_folder())
    screen = screen_for(sys.stdout)
    screen.line(say("bundle-taken-back", folder=folder), "good")
    for bundle in gone:
        screen.hang("-", f"no longer in force: {bundle.origin}")
    return exits.GOOD


def _show(screen: Screen, offer: Offer, taking: "Taking") -> None:
    from diagnose.casebook.comparing import compare
    from diagnose.cli.rules.diff import show_rules, show_totals

    bundle_pages.whose(screen, str(offer.path), taking, offer.vouched)
    changes = compare(taking.before, taking.after, Shop())
    show_rules(screen, taking.before, taking.after, changes)
    for rule in taking.instead:
        screen.line(say("in-place-of-a-shipped-rule", cause=rule.cause, defect=rule.defect), "caution")
    screen.line()
    show_totals(screen, changes, False)
    screen.line()
    screen.line(say("files-to-be-read"))
    for name in taking.files:
        screen.hang("-", name)


def _agreed(screen: Screen, offer: Offer, taking: "Taking") -> bool:
    if not both_terminals():
        err = screen_for(sys.stderr)
        if offer.yes:
            err.line(say("not-taken-without-digest"))
        else:
            err.line(say("not-taken-without-yes"))
        return False
    yes = "put it in the place of the earlier one" if taking.replaces else "take it"
    reply = ask(screen, numbers=0, letters=("y", "n"), names={"y": yes, "n": "leave it"})
    if reply.letter != "y":
        screen.line(say("nothing-was-written"))
    return reply.letter == "y"
