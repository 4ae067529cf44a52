"""What a shop changes of what ships: the ids that it adds, replaces and retires, kind by kind."""

from collections.abc import Mapping
from contextlib import suppress
from typing import Any

from diagnose.cli.shop import shelf
from diagnose.cli.shop.shelf import Shelf
from diagnose.knowledge import taken
from diagnose.knowledge.model import KINDS, SHIPPED, Knowledge
from diagnose.knowledge.shop import PRESS_NAME
from diagnose.knowledge.taken import TakenBundle
from diagnose.problems import PressloreError


def in_force(found: Shelf) -> dict[str, Any]:
    """The shop in force as plain values: folder, name, units, prices, presses, what is its own, what is left out."""
    shop, rates = found.shop, found.shop.rates
    return {
        "folder": str(found.folder),
        "name": shop.name,
        "currency": shop.currency,
        "units": {"temperature": shop.temperature, "pressure": shop.pressure},
        "tolerance": shop.tolerance,
        "rates": {name: getattr(rates, name) for name in rates.__slots__},
        "presses": [
            {
                "id": press.id,
                "title": press.title,
                "facts": dict(press.facts),
                "known": [
                    {"cause": each.cause, "turns_up": each.turns_up.value, "since": each.since, "note": each.note}
                    for each in press.known
                ],
            }
            for press in shop.presses.values()
        ],
        "bundles": [bundle.origin for bundle in _bundles(found)],
        "own": changes(shelf.shipped(), found.knowledge),
        "left_out": list(found.files_left_out),
        "problems": [str(problem) for problem in found.problems],
    }


def _bundles(found: Shelf) -> tuple[TakenBundle, ...]:
    """The bundles in force; none where the record of them is damaged, which is a problem of the shop by itself."""
    with suppress(PressloreError):
        return taken.read(found.folder).bundles if found.folder else ()
    return ()


def changes(below: Knowledge, above: Knowledge) -> dict[str, dict[str, list[str]]]:
    """By kind, the ids ``added``, ``replaced`` and ``retired``; kinds of which nothing differs are left out. A rule is
    named by its defect and cause."""
    kinds = {kind: changed(getattr(below, kind), getattr(above, kind)) for kind in KINDS}
    kinds["facts"]["added"] = [fact for fact in kinds["facts"]["added"] if fact != PRESS_NAME]  # the presses tell it
    kinds["rules"] = changed(_rules(below), _rules(above))
    return {kind: found for kind, found in kinds.items() if any(found.values())}


def changed(below: Mapping[str, Any], above: Mapping[str, Any]) -> dict[str, list[str]]:
    """The ids that only the upper has, that are the shop's own in place of a shipped one, and that are gone."""
    own = [key for key, entry in above.items() if getattr(entry, "origin", SHIPPED) != SHIPPED or key not in below]
    return {
        "added": [key for key in own if key not in below],
        "replaced": [key for key in own if key in below],
        "retired": [key for key in below if key not in above],
    }


def _rules(knowledge: Knowledge) -> dict[str, Any]:
    rules: dict[str, Any] = {}
    for defect in knowledge.defects.values():
        for rule in defect.rules:
            if f"{defect.id}/{rule.cause}" not in rules or rule.origin != SHIPPED:
                rules[f"{defect.id}/{rule.cause}"] = rule
    return rules
