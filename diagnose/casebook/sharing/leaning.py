"""The entries of a shop's own that some rules lean on: causes, checks, fixes, and what these name in their turn."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from diagnose.casebook.sharing.bundle import ADDS, CALLING
from diagnose.casebook.sharing.shop_files import ShopFiles, Values, bases, for_others, private
from diagnose.knowledge.dangers import called_for, texts_of


def leaned_on(shop: ShopFiles, rules: Sequence[Values]) -> dict[str, Values]:
    """The kb file of a bundle with these rules: whatever the shop has of its own that shows or cures one of their
    causes, without a word of causes that stay at home."""
    behind = {rule["cause"] for rule in rules}
    causes = {key: _cause(entry) for key, entry in shop.own("causes").items() if key in behind}
    known = {*shop.shipped.causes, *causes}
    checks = {
        key: {
            **_warned(shop, entry),
            "outcomes": {name: _outcome(outcome, known) for name, outcome in entry["outcomes"].items()},
        }
        for key, entry in shop.own("checks").items()
        if _shown(entry) & behind and not private(entry)
    }
    fixes = {
        key: {**_warned(shop, entry), "cures": _among(entry["cures"], known)}
        for key, entry in shop.own("fixes").items()
        if set(entry["cures"]) & behind and not private(entry)
    }
    steps = [*checks.values(), *fixes.values()]
    named = (one for step in steps for one in step.get("cautions", ()))
    cautions = {
        key: {k: v for k, v in entry.items() if k not in CALLING}
        for key, entry in _used(shop.own("cautions"), named).items()
    }
    told = [*rules, *causes.values(), *steps, *cautions.values()]
    found: dict[str, Mapping[str, Values]] = {
        "facts": _used(shop.own("facts"), (fact for entry in told for fact in _facts(entry))),
        "sources": _used(shop.own("sources"), (one for entry in told for one in bases(entry))),
        "cautions": cautions,
        "causes": causes,
        "checks": checks,
        "fixes": fixes,
    }
    entries: dict[str, Values] = {
        kind: {key: for_others(_unsettled(each[key])) for key in sorted(each)} for kind, each in found.items() if each
    }
    added = _additions(shop, set(causes), {*shop.shipped.fixes, *fixes}, {*shop.shipped.checks, *checks})
    return {**entries, ADDS: added} if added else entries


def _warned(shop: ShopFiles, step: Values) -> Values:
    """A check or fix with the cautions that its words call for: other shops take none without them."""
    cautions = [*dict.fromkeys((*step.get("cautions", ()), *called_for(shop.shipped.cautions, texts_of(step))))]
    return {**step, **({"cautions": cautions} if cautions else {})}


def _unsettled(entry: Values) -> Values:
    """An entry without what this shop found of it: how well it is tried is for each shop to say."""
    return {key: value for key, value in entry.items() if key not in ("status", "confirmed-by")}


def _cause(entry: Values) -> Values:
    shapes = [shape for shape in entry.get("when", ()) if not private(shape)]
    return {**{key: value for key, value in entry.items() if key != "when"}, **({"when": shapes} if shapes else {})}


def _outcome(outcome: Values, known: set[str]) -> Values:
    kept = {key: value for key, value in outcome.items() if key != "also"}
    return {**kept, "shows": _among(kept["shows"], known)} if "shows" in kept else kept


def _among(chances: Values, known: set[str]) -> dict[str, Any]:
    return {cause: chance for cause, chance in chances.items() if cause in known}


def _shown(check: Values) -> set[str]:
    return {cause for outcome in check["outcomes"].values() for cause in outcome.get("shows", ())}


def _used(own: Mapping[str, Values], ids: Iterable[str]) -> dict[str, Values]:
    wanted = set(ids)
    return {key: entry for key, entry in own.items() if key in wanted}


def _facts(entry: Values) -> Iterator[str]:
    yield from entry.get("if", ())
    for shape in entry.get("when", ()):
        yield from shape["if"]


def _additions(shop: ShopFiles, causes: set[str], fixes: set[str], checks: set[str]) -> dict[str, Any]:
    """What the shop says of its own causes at these fixes and checks, in what it adds to them and in its own versions
    of those that ship."""
    cures: dict[str, dict[str, Any]] = {}
    shows: dict[str, dict[str, dict[str, Any]]] = {}
    for fix, chances in _told_of_fixes(shop):
        if fix in fixes and (ours := _among(chances, causes)):
            cures.setdefault(fix, {}).update(ours)
    for check, outcome, chances in _told_of_outcomes(shop):
        if check in checks and (ours := _among(chances, causes)):
            shows.setdefault(check, {}).setdefault(outcome, {}).update(ours)
    found = {"fixes": cures, "checks": shows}
    return {name: {key: each[key] for key in sorted(each)} for name, each in found.items() if each}


def _told_of_fixes(shop: ShopFiles) -> Iterator[tuple[str, Values]]:
    yield from ((key, entry["cures"]) for key, entry in shop.versions("fixes").items())
    for value in shop.kb:
        yield from value.get(ADDS, {}).get("fixes", {}).items()


def _told_of_outcomes(shop: ShopFiles) -> Iterator[tuple[str, str, Values]]:
    for key, entry in shop.versions("checks").items():
        ships = {outcome.id for outcome in shop.shipped.checks[key].outcomes}
        yield from ((key, name, told.get("shows", {})) for name, told in entry["outcomes"].items() if name in ships)
    for value in shop.kb:
        for key, outcomes in value.get(ADDS, {}).get("checks", {}).items():
            yield from ((key, name, chances) for name, chances in outcomes.items())
