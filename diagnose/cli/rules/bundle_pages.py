"""A bundle to be taken, on the screen and as JSON: whose it says it is, its digest, and what it does."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from diagnose.cli.terminal.screen import Screen
from diagnose.knowledge.shop import Shop
from diagnose.knowledge.taken import TakenBundle, spoken, who
from diagnose.speech.saying import say

if TYPE_CHECKING:
    from diagnose.casebook.sharing.taking import Taking


def whose(screen: Screen, path: str, taking: Taking, vouched: bool) -> None:
    """Who sends it, the digest to be heard from them, and the bundle whose place it takes."""
    bundle = taking.bundle
    screen.line(f"{path}, {bundle.date}", "title")
    shop = f", id {bundle.sender.shop}" if bundle.sender.shop else ""
    screen.line(say("digest-to-be-compared") if not vouched else say("digest-given"))
    screen.whole(f"  {bundle.spoken}")
    screen.line(say("bundle-says-it-is-from", who=who(bundle.sender.name), shop=shop))
    for other in taking.alike:
        screen.line(say("another-shop-of-that-name", named=_named(other)), "caution")
    if taking.replaces is not None:
        _instead(screen, taking, taking.replaces)
    screen.line()


def _instead(screen: Screen, taking: Taking, old: TakenBundle) -> None:
    bundle = taking.bundle
    screen.line(say("bundle-takes-the-place-of", named=_named(old), date=old.date or "without a date"), "caution")
    screen.hang("-", f"in force now: {spoken(old.digest)}")
    screen.hang("-", f"then:         {bundle.spoken}")
    if bundle.sender.name != old.name:
        screen.line(say("same-id-other-name"), "caution")
    if bundle.date < old.date:
        screen.line(say("bundle-is-older"), "caution")
    screen.line(say("rules-that-stayed-as-they", kept=taking.kept))


def _named(bundle: TakenBundle) -> str:
    return f"{bundle.origin}{f', id {bundle.shop}' if bundle.shop else ''}"


def taking_json(path: str, taking: Taking, taken: bool) -> dict[str, Any]:
    """What `rules take --json` prints; its schema is taking.json."""
    from diagnose.casebook.comparing import compare
    from diagnose.cli.rules.diff import to_plain

    changes = to_plain(compare(taking.before, taking.after, Shop()))
    return {
        "format": "presslore-taking",
        "version": 1,
        "bundle": {"path": path, **_as_json(taking.as_taken)},
        "shop_folder": str(taking.folder),
        "taken": taken,
        "there_already": taking.there,
        "replaces": _as_json(taking.replaces) if taking.replaces else None,
        "same_name": [_as_json(one) for one in taking.alike],
        "kept": taking.kept,
        "in_place_of_shipped": [{"defect": rule.defect, "cause": rule.cause} for rule in taking.instead],
        "rules": changes["rules"],
        "worked_cases": changes["worked_cases"],
        "files": list(taking.files),
    }


def _as_json(bundle: TakenBundle) -> dict[str, Any]:
    return {
        "digest": spoken(bundle.digest) if bundle.digest else "",
        "name": bundle.name,
        "id": bundle.shop,
        "sha256": bundle.digest,
        "date": bundle.date,
        "origin": bundle.origin,
        "folder": bundle.folder,
    }
