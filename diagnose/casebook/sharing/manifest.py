"""The manifest of a bundle: what format it is in, how new its rules are, and the digest of every file."""

import json
from collections.abc import Mapping
from datetime import date
from typing import Any

from diagnose.casebook.sharing.bundle import FORMAT, MANIFEST, VERSION, Sender, refused, sha256
from diagnose.knowledge.taken import wrong_with_name, wrong_with_shop
from diagnose.problems import PressloreError


def write(data: Mapping[str, bytes], day: str, sender: Sender) -> bytes:
    """The manifest of some files by name, dated with a year-month-day."""
    files = {name: {"bytes": len(content), "sha256": sha256(content)} for name, content in data.items()}
    said = {key: value for key, value in (("name", sender.name), ("id", sender.shop)) if value}
    whole = {"format": FORMAT, "version": VERSION, "date": day, **({"shop": said} if said else {}), "files": files}
    return (json.dumps(whole, indent=2) + "\n").encode()


def read(data: bytes, shown: str) -> tuple[str, Sender, dict[str, str]]:
    """The date, whose it is, and the digests by name. Raises PressloreError; ``shown`` names the bundle to a person."""
    try:
        whole = json.loads(data.decode("utf-8"), object_pairs_hook=_once)
        if whole["format"] != FORMAT:
            raise refused(shown, f"{MANIFEST} is not one of rules that presslore shared")
        if type(whole["version"]) is not int or whole["version"] < 1:
            raise ValueError("a version that is no number")
        if whole["version"] > VERSION:
            raise PressloreError(f"{shown}: shared by a newer presslore: update this one, then take it")
        day = date.fromisoformat(whole["date"]).isoformat()
        return day, _sender(whole.get("shop"), shown), {n: str(file["sha256"]) for n, file in whole["files"].items()}
    except (ValueError, LookupError, TypeError, AttributeError, RecursionError) as error:
        raise refused(shown, f"{MANIFEST} is damaged ({type(error).__name__})") from error


def _sender(said: Any, shown: str) -> Sender:
    if said is None:
        return Sender()
    name, shop = said.get("name", ""), said.get("id", "")
    if not isinstance(name, str) or not isinstance(shop, str):
        raise TypeError("a sender that is no text")
    if wrong := (name and wrong_with_name(name)) or (shop and wrong_with_shop(shop)):
        raise refused(shown, f"it gives its shop a name or an id that none has: {wrong}")
    return Sender(name=name, shop=shop)


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    if len(dict(pairs)) != len(pairs):
        raise ValueError("a key stands twice")
    return dict(pairs)
