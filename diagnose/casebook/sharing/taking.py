"""Lays a bundle over a shop's folder: tried on a copy first, and then whole or not at all.

Its rules begin on trial, whatever the other shop thinks of them. A newer bundle of the same shop takes the place of its
earlier one; rules that stayed as they were keep the cases that confirmed them here. The files of the earlier one stay
until the next bundle is taken, so that the last taking can be taken back.
"""

import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from diagnose.casebook.sharing.bundle import KINDS, STEPS, Bundle
from diagnose.casebook.sharing.contents import Contents, contents
from diagnose.casebook.sharing.on_trial import Earlier, landed
from diagnose.casebook.sharing.shop_copy import ShopCopy, state_of
from diagnose.knowledge import taken
from diagnose.knowledge.dangers import called_for, speaking, texts_of
from diagnose.knowledge.model import SHIPPED, THIS_SHOP, Knowledge, Rule
from diagnose.knowledge.readers.conditions import read_test
from diagnose.knowledge.taken import PREFIX, Record, TakenBundle
from diagnose.problems import Place, PressloreError, Problem
from diagnose.reasoning.worked_cases import broken_cases

Subject = tuple[str, str, frozenset[tuple[str, str]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Taking:
    """A bundle that fits a shop's folder. ``as_taken``: what it will be called. ``files``: texts by path within the
    folder, each in a folder of the bundle's own. ``before`` and ``after``: what is known without and with it.
    ``instead``: the rules that ship whose place one of the bundle takes. ``there``: whether it stands there already.
    ``replaces``: the earlier bundle of the same shop, None where there is none; ``kept``: how many of its rules keep
    the cases that confirmed them. ``alike``: bundles of other shops that go by the same name, or one like it.
    ``state``: the digest of all the shop's files that this was tried on."""

    bundle: Bundle
    as_taken: TakenBundle
    folder: Path
    shipped: Path
    files: Mapping[str, str]
    before: Knowledge
    after: Knowledge
    instead: tuple[Rule, ...]
    there: bool
    replaces: TakenBundle | None
    kept: int
    alike: tuple[TakenBundle, ...]
    record: Record
    state: str


def plan(bundle: Bundle, shown: str, folder: Path, shipped: Path) -> Taking:
    """Try the bundle on a copy of the folder, which is not touched. ``shown`` names the bundle to a person. Raises
    PressloreError with everything that stands against it: what it may not hold, cautions that it leaves out, what
    clashes with the shop's own or with what ships, problems of the whole, and worked cases that would no longer
    hold."""
    told = contents(bundle, shown)
    record, state = taken.read(folder), state_of(folder, shipped)
    old = _earlier(record, bundle)
    there = old is not None and old.digest == bundle.digest and _stands(folder, old, bundle)
    new = old if there and old else _as_taken(bundle, record)
    again = Record(tuple(one for one in record.bundles if one != old), record.bundles)
    with tempfile.TemporaryDirectory(prefix="presslore-") as scratch:
        trial = ShopCopy(Path(scratch) / "shop", folder, shipped)
        trial.lay_out(again if old and old.digest == bundle.digest and not there else record)
        before = trial.knowledge(f"{folder} has faults of its own: mend them first (presslore rules check {folder})")
        against = [] if there else [*_uncautioned(told, before, shown)]
        clashes, instead = ([], []) if there else _clashes(told, before, shown, trial, old)
        if against or clashes:
            raise PressloreError([*against, *clashes])
        earlier = Earlier.of(folder, old)
        files, kept = landed(bundle, new, earlier, Path(scratch) / "texts")
        after = before if there else trial.with_bundle(files, replace(again, bundles=(*again.bundles, new)), shown)
        if broken := _newly_broken(before, after):
            raise trial.refused(f"{shown}: not taken, worked cases would no longer hold", broken)
    return Taking(
        bundle=bundle,
        as_taken=new,
        folder=folder,
        shipped=shipped,
        files=files,
        before=before,
        after=after,
        instead=tuple(instead),
        there=there,
        replaces=None if there else old,
        kept=kept,
        alike=tuple(one for one in record.bundles if taken.alike(one.name, bundle.sender.name) and one != old),
        record=record,
        state=state,
    )


def _newly_broken(before: Knowledge, after: Knowledge) -> list[Problem]:
    broken = {(defect.id, case.story): problem for defect, case, problem in broken_cases(after)}
    known = {(defect.id, case.story) for defect, case, _ in broken_cases(before)} if broken else set()
    return [problem for key, problem in broken.items() if key not in known]


def _earlier(record: Record, bundle: Bundle) -> TakenBundle | None:
    """The very same bundle, or else the one that came from the same shop."""
    same = (one for one in record.bundles if one.digest == bundle.digest)
    shops = (one for one in record.bundles if bundle.sender.shop and one.shop == bundle.sender.shop)
    return next(same, None) or next(shops, None)


def _stands(folder: Path, old: TakenBundle, bundle: Bundle) -> bool:
    places = (name.split("/") for name in bundle.files)
    return all((folder / part / old.folder / file).is_file() for part, file in places)


def _as_taken(bundle: Bundle, record: Record) -> TakenBundle:
    name, number = f"{PREFIX}{bundle.short}", 1
    while name in record.folders:
        number += 1
        name = f"{PREFIX}{bundle.short}-{number}"
    sender = bundle.sender
    return TakenBundle(folder=name, name=sender.name, shop=sender.shop, digest=bundle.digest, date=bundle.date)


def _uncautioned(told: Contents, before: Knowledge, shown: str) -> Iterator[Problem]:
    """The checks and fixes that leave out a caution that their words call for."""
    for kind in STEPS:
        for name, value in told.kb.items():
            for key, entry in value.get(kind, {}).items():
                texts = texts_of(entry)
                for caution in called_for(before.cautions, texts):
                    if caution not in entry.get("cautions", ()):
                        word = speaking(before.cautions[caution], texts)
                        wrong = f'"{key}" among the {kind} says “{word}” and leaves out the caution "{caution}"'
                        hint = "ask the shop to name the caution and to share anew"
                        yield Problem(place=Place(f"{shown}/{name}"), code="bundle", wrong=wrong, hint=hint)


def _clashes(
    told: Contents, before: Knowledge, shown: str, trial: ShopCopy, old: TakenBundle | None
) -> tuple[list[Problem], list[Rule]]:
    """What stands against the bundle, and the rules that ship whose place it takes. The ``old`` one it replaces does
    not stand in its way."""
    gone = old.origin if old else ""
    clashes = [*_same_ids(told, before, shown, trial, gone)]
    known = {subject: rule for defect in before.defects.values() for rule in defect.rules for subject in [_of(rule)]}
    instead = []
    for name, defect, values in told.rule_entries():
        rule = known.get(_subject(defect, values))
        if rule is None or rule.origin == gone:
            continue
        if rule.origin != SHIPPED:
            what = f'the rule "{rule.cause}" → "{rule.defect}"'
            clashes.append(_clash(f"{shown}/{name}", what, rule.place, rule.origin, trial))
        else:
            instead.append(rule)
    return clashes, instead


def _same_ids(told: Contents, before: Knowledge, shown: str, trial: ShopCopy, gone: str) -> Iterator[Problem]:
    defined = [(kind, name, key) for kind in KINDS for name, key in told.ids(kind)]
    defined += [("defects", name, str(v["defect"])) for name, v in told.rules.items() if "defect" in v]
    for kind, name, key in defined:
        known = getattr(before, kind).get(key)
        origin = getattr(known, "origin", THIS_SHOP)
        if known is not None and origin != gone:
            yield _clash(f"{shown}/{name}", f'"{key}" among the {kind}', known.place, origin, trial)


def _clash(file: str, what: str, place: Place, origin: str, trial: ShopCopy) -> Problem:
    where = replace(place, file=trial.at_home(place.file))
    hint = f"it came with {origin}: to be rid of that one, delete its folders in kb/ and rules/"
    if origin in (SHIPPED, THIS_SHOP):
        own = "keep yours, or take it out of your folder and take the bundle then"
        hint = own if origin == THIS_SHOP else "ask for another id"
    return Problem(place=Place(file), code="clash", wrong=f"{what} stands at {where} already", hint=hint)


def _of(rule: Rule) -> Subject:
    return rule.defect, rule.cause, frozenset((test.fact, test.written) for test in rule.condition.tests)


def _subject(defect: str, values: Mapping[str, Any]) -> Subject:
    tests = (read_test(fact, value) for fact, value in values.get("if", {}).items())
    return defect, str(values["cause"]), frozenset((test.fact, test.written) for test in tests)
