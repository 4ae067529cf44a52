"""``presslore handbook``: the site drawn from the rules, built into a folder or shown on this machine."""

import os
import sys
from collections.abc import Mapping
from pathlib import Path

import click

from diagnose.casebook.report.report import Report, report
from diagnose.casebook.store.address import is_server
from diagnose.cli import exits
from diagnose.cli.options import BOOK_VARIABLE, shop_option
from diagnose.cli.shop import bookcase, leaving_out, shelf
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen, progress, screen_for
from diagnose.handbook import building, placing
from diagnose.handbook.building import Drift
from diagnose.handbook.own_settings import read_own_settings
from diagnose.handbook.serving import HERE, Server
from diagnose.knowledge.loading import shipped_folder
from diagnose.pace import Far, unheard
from diagnose.problems import PressloreError
from diagnose.speech.saying import say


@click.group(epilog="\b\nExamples:\n  presslore handbook build --out handbook\n  presslore handbook serve")
def handbook() -> None:
    """The handbook: a site that works from a folder or a memory stick."""


@handbook.command(epilog="\b\nExamples:\n  presslore handbook build\n  presslore handbook build --check")
@click.option("--out", type=click.Path(file_okay=False, path_type=Path), help="Where the site goes (default: site).")
@click.option("--check", "only_check", is_flag=True, help="Build nothing; fail where the drawn pages are not current.")
@click.option("--dry-run", is_flag=True, help="Write nothing; name the pages that would change.")
@shop_option
def build(out: Path | None, only_check: bool, dry_run: bool, shop: Path | None) -> int:
    """Draw the pages and build the site.

    Open index.html in the folder: it needs no server and no network.
    """
    root, screen = shipped_folder(), screen_for(sys.stdout)
    if only_check or dry_run:
        if building.is_installed(root):
            raise click.UsageError("--check and --dry-run look at docs/generated/ in a checkout; this one is installed")
        found = building.drift(root / building.GENERATED, drawn(root, shop))
        _tell(screen, found)
        return exits.PROBLEMS if only_check and found else exits.GOOD
    target = out or _usual(root)
    number = _build(root, target, shop)
    screen.line(say("handbook-built", number=number, target=target, page=target / "index.html"))
    return exits.GOOD


@handbook.command(epilog="\b\nExample: presslore handbook serve --port 8700")
@click.option("--port", default=8700, show_default=True, type=click.IntRange(0, 65535), help="0 takes a free one.")
@shop_option
def serve(port: int, shop: Path | None) -> int:
    """Build the site and show it to this machine alone, until Ctrl-C."""
    root = shipped_folder()
    target = _usual(root)
    _prove(root, target, _kept(shop))
    with server(target, port) as serving:  # whoever asks while it is built waits
        _build(root, target, shop)
        serving.trust(target)
        screen_for(sys.stdout).whole(f"http://{HERE}:{serving.server_port}/")
        sys.stdout.flush()
        serving.serve_forever()
    return exits.GOOD


def server(folder: Path, port: int) -> Server:
    """A server of the files in a folder, for this machine alone. Raises click.UsageError where the port is taken."""
    try:
        return Server(folder, port, screen_for(sys.stderr).line)
    except OSError as error:
        raise click.UsageError(f"port {port} cannot be had: {error.strerror}; try another with --port") from error


def _usual(root: Path) -> Path:
    """Where the site goes unless another folder is named: the checkout; where there is none, the working folder."""
    return Path(building.SITE) if building.is_installed(root) else root / building.SITE


def _build(root: Path, target: Path, shop: Path | None) -> int:
    """Draw the pages and have the site built from them. How many files that took. Raises PressloreError."""
    own, kept = _settings(root, shop), _kept(shop)
    _prove(root, target, kept)
    with progress(say("drawing-the-pages")) as far:
        files = drawn(root, shop, far)
    with building.pages_folder(root) as pages, progress(say("building-the-site")) as far:
        building.write(pages, files)
        building.build(root, target, pages, own=own, kept=kept, far=far)
    return len(files)


def drawn(root: Path, shop: Path | None, far: Far = unheard) -> dict[str, bytes]:
    """All files for mkdocs, from what ships with a shop's own rules laid over it. Raises PressloreError."""
    from diagnose.handbook.site import site

    found = shelf.at(shop)
    leaving_out.tell(found)
    changes, docs = building.read_changes(root), building.read_docs(root)
    return site(found.knowledge, found.shop, changes, docs, cases(found, shop), far)


def cases(found: Shelf, shop: Path | None) -> Report | None:
    """What the shop's cases add up to; None where it has no casebook, or one that cannot be read, which is said."""
    if found.folder is None and not os.environ.get(BOOK_VARIABLE):
        return None
    where = bookcase.place(shop=shop)
    if not is_server(where) and not Path(where).exists():
        return None
    try:
        with bookcase.opened(where) as book:
            return report(book.groups(), book.days(), found.knowledge, found.shop)
    except PressloreError as error:
        screen_for(sys.stderr).line(say("casebook-page-left-out", error=error), "caution")
        return None


def _settings(root: Path, shop: Path | None) -> Mapping[str, str]:
    """The shop's own settings for the site, empty where it has none. Raises PressloreError."""
    folder = shelf.shop_folder(shop)
    return {} if folder and folder.resolve() == root.resolve() else read_own_settings(folder)


def _prove(root: Path, target: Path, kept: tuple[Path, ...]) -> None:
    """Raises PressloreError where a site cannot be built, or its folder not replaced, before the pages are drawn: that
    takes a while."""
    building.prove_tools()
    if not building.is_installed(root):
        placing.prove(root / building.GENERATED)
    placing.prove(target, (root, *kept))


def _kept(shop: Path | None) -> tuple[Path, ...]:
    """The shop's folder, which no site is built over."""
    folder = shelf.shop_folder(shop)
    return (folder,) if folder else ()


def _tell(screen: Screen, found: Drift) -> None:
    for word, paths in (("new", found.new), ("changed", found.changed), ("gone", found.gone)):
        for path in paths:
            screen.line(f"{word} {building.GENERATED}/{path}")
    if not found:
        screen.line(say("all-drawn-pages-are-current"))
