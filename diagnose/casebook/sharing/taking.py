"""Lays a bundle over a shop's folder: tried on a copy first, and then whole or not at all.

Its rules begin on trial, whatever the other shop thinks of them. A newer bundle of the same shop takes the place of its
earlier one; rules that stayed as they were keep the cases that confirmed them here. The files of the earlier one stay
until the next bundle is taken, so that the last taking can be taken back.
"""

import json
import os
import shutil
import tempfile
from collections.abc import Collection, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from diagnose.casebook.sharing.bundle import ADDS, KINDS, Bundle
from diagnose.casebook.sharing.contents import Contents, contents
from diagnose.casebook.writing.yaml_edit import YamlFile
from diagnose.files.locks import locked
from diagnose.files.reading import read
from diagnose.files.writing import settle, write_over
from diagnose.knowledge import taken
from diagnose.knowledge.dangers import called_for, speaking
from diagnose.knowledge.folders import PARTS, SHOP_FILE, digest, read_folders
from diagnose.knowledge.loading import inspect
from diagnose.knowledge.model import SHIPPED, THIS_SHOP, Knowledge, Rule
from diagnose.knowledge.readers.conditions import read_test
from diagnose.knowledge.schema_check import check_structure
from diagnose.knowledge.taken import PREFIX, RECORD, Record, TakenBundle
from diagnose.knowledge.trial import TRIAL
from diagnose.knowledge.yaml_text import read_yaml
from diagnose.problems import Collector, Place, PressloreError, Problem
from diagnose.reasoning.worked_cases import broken_cases

Subject = tuple[str, str, frozenset[tuple[str, str]]]
SCRATCH = ".taking-"


class ChangedMeanwhile(PressloreError):
    """Somebody changed the shop's files since they were tried; nothing was written, and it may be tried anew."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taking:
    """A bundle that fits a shop's folder. ``as_taken``: what it will be called. ``files``: texts by path within the
    folder, each in a folder of the bundle's own. ``before`` and ``after``: what is known without and with it.
    ``instead``: the rules that ship whose place one of the bundle takes. ``there``: whether it stands there already.
    ``replaces``: the earlier bundle of the same shop, None where there is none; ``kept``: how many of its rules keep
    the cases that confirmed them. ``alike``: bundles of other shops that go by the same name. ``state``: the digest of
    all the shop's files that this was tried on."""

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
    record, state = taken.read(folder), _state(folder, shipped)
    old = _earlier(record, bundle)
    there = old is not None and old.digest == bundle.digest and _stands(folder, old, bundle)
    new = old if there and old else _as_taken(bundle, record)
    again = Record(tuple(one for one in record.bundles if one != old), record.bundles)
    with tempfile.TemporaryDirectory(prefix="presslore-") as scratch:
        trial = _Trial(Path(scratch) / "shop", folder, shipped)
        trial.lay_out(again if old and old.digest == bundle.digest and not there else record)
        before = trial.knowledge(f"{folder} has faults of its own: mend them first (presslore rules check {folder})")
        against = [] if there else [*_uncautioned(told, before, shown)]
        clashes, instead = ([], []) if there else _clashes(told, before, shown, trial, old)
        if against or clashes:
            raise PressloreError([*against, *clashes])
        earlier = _Earlier.of(folder, old)
        files, kept = _landed(bundle, new, earlier, Path(scratch) / "texts")
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
        alike=tuple(one for one in record.bundles if one.name and one.name == bundle.sender.name and one != old),
        record=record,
        state=state,
    )


def land(taking: Taking) -> None:
    """Put the bundle in force, whole or not at all. Raises ChangedMeanwhile where somebody changed the shop's files
    since they were tried, and PressloreError where they cannot be written."""
    folder = taking.folder
    others = tuple(one for one in taking.record.bundles if one != taking.replaces)
    new = Record((*others, taking.as_taken), taking.record.bundles)
    with _alone(folder, taking.record, taking.state, taking.shipped):
        _sweep(folder, taking.record.folders)
        _put_down(taking, new)
        _sweep(folder, new.folders)


def take_back(folder: Path, shipped: Path) -> tuple[TakenBundle, ...]:
    """Undo the last taking: what was in force before it is so again, to the letter. Returns the bundles that went.
    Raises PressloreError where there is nothing to take back, or where the shop's own files lean on what would go."""
    record, state = taken.read(folder), _state(folder, shipped)
    if record.before is None:
        raise PressloreError(f"{folder}: no taking of a bundle to take back")
    back = Record(record.before)
    with tempfile.TemporaryDirectory(prefix="presslore-") as scratch:
        trial = _Trial(Path(scratch) / "shop", folder, shipped)
        trial.lay_out(back)
        trial.knowledge(f"{folder}: not taken back, your own files lean on the bundle")
    with _alone(folder, record, state, shipped):
        write_over(folder / RECORD, back.data())
        _sweep(folder, back.folders)
    return tuple(one for one in record.bundles if one not in back.bundles)


def _newly_broken(before: Knowledge, after: Knowledge) -> list[Problem]:
    broken = {(defect.id, case.story): problem for defect, case, problem in broken_cases(after)}
    known = {(defect.id, case.story) for defect, case, _ in broken_cases(before)} if broken else set()
    return [problem for key, problem in broken.items() if key not in known]


def _state(folder: Path, shipped: Path) -> str:
    return digest(read_folders((shipped, folder), Collector())[1:])


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


@contextmanager
def _alone(folder: Path, record: Record, state: str, shipped: Path) -> Iterator[None]:
    """Keep everybody else from the shop's files, which must be as they were when they were looked at."""
    try:
        for part in PARTS:
            (folder / part).mkdir(exist_ok=True)
        with locked([folder, *(folder / part for part in PARTS)]):
            if taken.read(folder) != record or _state(folder, shipped) != state:
                raise ChangedMeanwhile(
                    f"{folder}: somebody changed its files meanwhile; nothing was written: try again"
                )
            yield
    except OSError as error:
        why = error.strerror or error
        raise PressloreError(f"{folder}: cannot be written to ({why}); nothing was taken") from error


def _put_down(taking: Taking, new: Record) -> None:
    """Lay the files beside those in force, then put them in force by the record. Left undone, nothing of them stays."""
    folder, name = taking.folder, taking.as_taken.folder
    began = not (folder / RECORD).exists()
    parts = sorted({path.split("/")[0] for path in taking.files})
    try:
        if began:  # from here on, folders that the record does not name are passed over
            write_over(folder / RECORD, taking.record.data())
        with tempfile.TemporaryDirectory(dir=folder, prefix=SCRATCH) as scratch:
            for path, text in taking.files.items():
                _write(Path(scratch) / path, text)
            for part in parts:
                os.rename(Path(scratch) / part / name, folder / part / name)
        settle([folder / part for part in parts])
        write_over(folder / RECORD, new.data())
    except BaseException:
        if taken.read(folder) != new:
            for part in parts:
                shutil.rmtree(folder / part / name, ignore_errors=True)
            if began:
                (folder / RECORD).unlink(missing_ok=True)
        raise


def _sweep(folder: Path, named: Collection[str]) -> None:
    """Remove what was laid down and is named no longer, and what a taking left that was stopped."""
    for path in folder.glob(SCRATCH + "*"):
        shutil.rmtree(path, ignore_errors=True)
    if (folder / RECORD).exists():
        for part in PARTS:
            for path in (folder / part).glob(PREFIX + "*"):
                if path.is_dir() and not path.is_symlink() and path.name not in named:
                    shutil.rmtree(path, ignore_errors=True)


def _landed(bundle: Bundle, new: TakenBundle, earlier: "_Earlier", scratch: Path) -> tuple[dict[str, str], int]:
    """The texts as they will stand in the shop's folder: the rules on trial, but for what cases have confirmed of rules
    that stayed as they were. And how many those are."""
    files, kept, kb = {}, 0, _entries(bundle)
    for name, text in bundle.files.items():
        part, file = name.split("/")
        whole = f"# Taken from another shop's bundle of {bundle.date}, SHA-256 {bundle.digest}.\n"
        whole += text.removeprefix("\ufeff")
        if part == "rules":
            _write(scratch / name, whole)
            yaml = YamlFile(scratch / name)
            kept += _put_on_trial(yaml, earlier, kb)
            whole = yaml.text()
        files[f"{part}/{new.folder}/{file}"] = whole
    return files, kept


def _put_on_trial(file: YamlFile, earlier: "_Earlier", kb: Mapping[str, Any]) -> int:
    """Set every rule of a file on trial; those that the shop's cases confirmed as they stand keep that. How many do."""
    file.set(("status",), TRIAL)
    kept, defect = 0, str(file.get(ADDS) or file.get("defect"))
    for number, rule in enumerate(file.get("rules")):
        file.remove(("rules", number, "status"))
        known = earlier.rules.get(_standing(defect, rule, kb))
        if known and (known.get("confirmed-by") or known["status"] != TRIAL):
            kept += 1
            file.set(("rules", number, "status"), known["status"])
            if known.get("confirmed-by"):
                file.set(("rules", number, "confirmed-by"), known["confirmed-by"])
    return kept


@dataclass(frozen=True, slots=True)
class _Earlier:
    """The rules of the earlier bundle as they stand in the shop's folder, by all that their cases spoke of."""

    rules: Mapping[str, Mapping[str, Any]]

    @classmethod
    def of(cls, folder: Path, old: TakenBundle | None) -> "_Earlier":
        kb, sheets = (_values(folder, part, old) for part in PARTS)
        whole, found = _merged(kb), {}
        for sheet in sheets:
            defect = str(sheet.get(ADDS) or sheet.get("defect"))
            for rule in sheet.get("rules", ()):
                found[_standing(defect, rule, whole)] = {"status": sheet.get("status"), **rule}
        return cls(found)


def _standing(defect: str, rule: Mapping[str, Any], kb: Mapping[str, Any]) -> str:
    """A rule with all that a case that confirms it speaks of: its cause, and the fixes for that."""
    said = {key: value for key, value in rule.items() if key not in ("status", "confirmed-by", "date")}
    cause = rule.get("cause")
    fixes = {key: fix for key, fix in kb.get("fixes", {}).items() if cause in fix.get("cures", {})}
    return json.dumps([defect, said, kb.get("causes", {}).get(cause), fixes], sort_keys=True, default=str)


def _entries(bundle: Bundle) -> dict[str, Any]:
    texts = (text for name, text in bundle.files.items() if name.startswith("kb/"))
    return _merged(_value(text.encode(), "kb") for text in texts)


def _merged(values: Iterable[Mapping[str, Any]]) -> dict[str, Any]:
    whole: dict[str, Any] = {}
    for value in values:
        for kind in ("causes", "fixes"):
            whole.setdefault(kind, {}).update(value.get(kind, {}))
    return whole


def _values(folder: Path, part: str, old: TakenBundle | None) -> list[Mapping[str, Any]]:
    """What the files of a bundle say that was taken; a file with faults says nothing."""
    paths = sorted((folder / part / old.folder).glob("*.yaml")) if old else []
    return [_value(read(path), part) for path in paths if path.is_file()]


def _value(data: bytes, part: str) -> Mapping[str, Any]:
    document, problems = read_yaml(data, "")
    if document is None or problems or check_structure(document, PARTS[part])[1]:
        return {}
    return document.value if isinstance(document.value, dict) else {}


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("w", encoding="utf-8", newline="") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())


@dataclass(frozen=True, slots=True)
class _Trial:
    """A copy of what the shop knows, in a folder that goes again."""

    copy: Path
    folder: Path
    shipped: Path

    def lay_out(self, record: Record) -> None:
        """Copy the folder, with the bundles of a record in force."""
        try:
            for part in PARTS:
                (self.copy / part).mkdir(parents=True)
                if (self.folder / part).is_dir():
                    shutil.copytree(self.folder / part, self.copy / part, dirs_exist_ok=True)
            if (self.folder / SHOP_FILE).exists():
                shutil.copyfile(self.folder / SHOP_FILE, self.copy / SHOP_FILE)
            (self.copy / RECORD).write_bytes(record.data())
        except (OSError, shutil.Error) as error:
            raise PressloreError(f"{self.folder}: cannot be read ({error})") from error

    def with_bundle(self, files: Mapping[str, str], record: Record, shown: str) -> Knowledge:
        """What is known with these files, and the bundles of a record in force. Raises PressloreError."""
        for name, text in files.items():
            _write(self.copy / name, text)
        (self.copy / RECORD).write_bytes(record.data())
        return self.knowledge(f"{shown}: not taken, it does not fit {self.folder}")

    def knowledge(self, otherwise: str) -> Knowledge:
        """What is known with the copy. Raises PressloreError, which begins with ``otherwise``."""
        found, problems = inspect(self.shipped, self.copy)
        if found is None or problems:
            raise self.refused(otherwise, problems)
        return found

    def refused(self, why: str, problems: list[Problem]) -> PressloreError:
        """The error that says why, and then every problem by its place in the shop's own folder."""
        return PressloreError("\n".join([f"{why}:", *(self.at_home(str(problem)) for problem in problems)]))

    def at_home(self, text: str) -> str:
        return text.replace(str(self.copy), str(self.folder))


def _uncautioned(told: Contents, before: Knowledge, shown: str) -> Iterator[Problem]:
    """The checks and fixes that leave out a caution that their words call for."""
    for kind, says in (("fixes", ("title", "steps")), ("checks", ("title", "asks", "how"))):
        for name, value in told.kb.items():
            for key, entry in value.get(kind, {}).items():
                texts = [text for one in says for text in ([entry[one]] if isinstance(entry[one], str) else entry[one])]
                for caution in called_for(before.cautions, texts):
                    if caution not in entry.get("cautions", ()):
                        word = speaking(before.cautions[caution], texts)
                        wrong = f'"{key}" among the {kind} says “{word}” and leaves out the caution "{caution}"'
                        hint = "ask the shop to name the caution and to share anew"
                        yield Problem(place=Place(f"{shown}/{name}"), code="bundle", wrong=wrong, hint=hint)


def _clashes(
    told: Contents, before: Knowledge, shown: str, trial: _Trial, old: TakenBundle | None
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


def _same_ids(told: Contents, before: Knowledge, shown: str, trial: _Trial, gone: str) -> Iterator[Problem]:
    defined = [(kind, name, key) for kind in KINDS for name, key in told.ids(kind)]
    defined += [("defects", name, str(v["defect"])) for name, v in told.rules.items() if "defect" in v]
    for kind, name, key in defined:
        known = getattr(before, kind).get(key)
        origin = getattr(known, "origin", THIS_SHOP)
        if known is not None and origin != gone:
            yield _clash(f"{shown}/{name}", f'"{key}" among the {kind}', known.place, origin, trial)


def _clash(file: str, what: str, place: Place, origin: str, trial: _Trial) -> Problem:
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
