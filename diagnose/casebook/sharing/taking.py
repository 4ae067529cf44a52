"""Lays a bundle over a shop's folder: tried on a copy first, and then whole or not at all."""

import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from diagnose.casebook.sharing.bundle import KINDS, Bundle
from diagnose.casebook.sharing.contents import Contents, contents
from diagnose.knowledge.folders import PARTS, SHOP_FILE
from diagnose.knowledge.loading import inspect
from diagnose.knowledge.model import THIS_SHOP, Knowledge, Rule
from diagnose.knowledge.readers.conditions import read_test
from diagnose.problems import Place, PressloreError, Problem
from diagnose.reasoning.worked_cases import broken_cases

Subject = tuple[str, str, frozenset[tuple[str, str]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Taking:
    """A bundle that fits a shop's folder. ``files``: texts by path within the folder, each in a folder of the bundle's
    own. ``before`` and ``after``: what is known without and with it. ``instead``: the rules that ship whose place one
    of the bundle takes. ``there``: whether the very same files stand there already."""

    bundle: Bundle
    folder: Path
    files: Mapping[str, str]
    before: Knowledge
    after: Knowledge
    instead: tuple[Rule, ...]
    there: bool


def plan(bundle: Bundle, shown: str, folder: Path, shipped: Path) -> Taking:
    """Try the bundle on a copy of the folder, which is not touched. ``shown`` names the bundle to a person. Raises
    PressloreError with everything that stands against it: what it may not hold, what clashes with the shop's own or
    with what ships, problems of the whole, and worked cases that would no longer hold."""
    told = contents(bundle, shown)
    files = {_landed(name, bundle): _with_origin(text, bundle) for name, text in bundle.files.items()}
    with tempfile.TemporaryDirectory(prefix="presslore-") as scratch:
        trial = _Trial(Path(scratch) / "shop", folder, shipped)
        trial.lay_out(bundle)
        before = trial.knowledge(f"{folder} has faults of its own: mend them first (presslore rules check {folder})")
        clashes, instead = _clashes(told, before, shown, trial)
        if clashes:
            raise PressloreError(clashes)
        known_broken = {(defect.id, case.story) for defect, case, _ in broken_cases(before)}
        trial.add(files)
        after = trial.knowledge(f"{shown}: not taken, it does not fit {folder}")
        broken = [p for defect, case, p in broken_cases(after) if (defect.id, case.story) not in known_broken]
        if broken:
            raise trial.refused(f"{shown}: not taken, worked cases would no longer hold", broken)
    there = all(_is(folder / name, text) for name, text in files.items())
    return Taking(
        bundle=bundle, folder=folder, files=files, before=before, after=after, instead=tuple(instead), there=there
    )


def land(taking: Taking) -> None:
    """Write the bundle's files, whole or not at all. Raises PressloreError. Where the machine stops between the two
    renames that end it, taking the same bundle once more puts things right."""
    folder, landed = taking.folder, []
    try:
        with tempfile.TemporaryDirectory(dir=folder, prefix=".taking-") as scratch:
            for name, text in taking.files.items():
                _write(Path(scratch) / name, text)
            for part in sorted({name.split("/")[0] for name in taking.files}):
                within = f"{part}/{own_folder(taking.bundle)}"
                shutil.rmtree(folder / within, ignore_errors=True)  # left by one that was cut short
                (folder / part).mkdir(exist_ok=True)
                landed.append(folder / within)
                os.rename(Path(scratch) / within, folder / within)
    except BaseException as error:
        for path in landed:
            shutil.rmtree(path, ignore_errors=True)
        if isinstance(error, OSError):
            raise PressloreError(
                f"{folder}: cannot be written to ({error.strerror or error}); nothing was taken"
            ) from error
        raise


def own_folder(bundle: Bundle) -> str:
    """The folder within kb/ and rules/ that the bundle's files stand in."""
    return f"taken-{bundle.short}"


def _landed(name: str, bundle: Bundle) -> str:
    part, file = name.split("/")
    return f"{part}/{own_folder(bundle)}/{file}"


def _with_origin(text: str, bundle: Bundle) -> str:
    origin = f"# Taken from another shop's bundle of {bundle.date}, SHA-256 {bundle.digest}.\n"
    return origin + text.removeprefix("\ufeff")


def _is(path: Path, text: str) -> bool:
    try:
        return path.read_bytes() == text.encode()
    except OSError:
        return False


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

    def lay_out(self, bundle: Bundle) -> None:
        """Copy the folder without what an earlier try of the same bundle left or wrote."""
        try:
            for part in PARTS:
                (self.copy / part).mkdir(parents=True)
                if (self.folder / part).is_dir():
                    leave = shutil.ignore_patterns(own_folder(bundle))
                    shutil.copytree(self.folder / part, self.copy / part, dirs_exist_ok=True, ignore=leave)
            if (self.folder / SHOP_FILE).exists():
                shutil.copyfile(self.folder / SHOP_FILE, self.copy / SHOP_FILE)
        except (OSError, shutil.Error) as error:
            raise PressloreError(f"{self.folder}: cannot be read ({error})") from error

    def add(self, files: Mapping[str, str]) -> None:
        for name, text in files.items():
            _write(self.copy / name, text)

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


def _clashes(told: Contents, before: Knowledge, shown: str, trial: _Trial) -> tuple[list[Problem], list[Rule]]:
    """What stands against the bundle, and the rules that ship whose place it takes."""
    clashes = [*_same_ids(told, before, shown, trial)]
    known = {subject: rule for defect in before.defects.values() for rule in defect.rules for subject in [_of(rule)]}
    instead = []
    for name, defect, values in told.rule_entries():
        rule = known.get(_subject(defect, values))
        if rule is None:
            continue
        if rule.origin == THIS_SHOP:
            what = f'the rule "{rule.cause}" → "{rule.defect}"'
            clashes.append(_clash(f"{shown}/{name}", what, rule.place, True, trial))
        else:
            instead.append(rule)
    return clashes, instead


def _same_ids(told: Contents, before: Knowledge, shown: str, trial: _Trial) -> Iterator[Problem]:
    defined = [(kind, name, key) for kind in KINDS for name, key in told.ids(kind)]
    defined += [("defects", name, str(v["defect"])) for name, v in told.rules.items() if "defect" in v]
    for kind, name, key in defined:
        known = getattr(before, kind).get(key)
        if known is not None:
            own = getattr(known, "origin", THIS_SHOP) == THIS_SHOP
            yield _clash(f"{shown}/{name}", f'"{key}" among the {kind}', known.place, own, trial)


def _clash(file: str, what: str, place: Place, own: bool, trial: _Trial) -> Problem:
    where = replace(place, file=trial.at_home(place.file))
    hint = "keep yours, or take it out of your folder and take the bundle then" if own else "ask for another id"
    if "/taken-" in place.file:
        hint = "it came with an earlier bundle: delete its folders in kb/ and rules/, then take this one"
    return Problem(place=Place(file), code="clash", wrong=f"{what} stands at {where} already", hint=hint)


def _of(rule: Rule) -> Subject:
    return rule.defect, rule.cause, frozenset((test.fact, test.written) for test in rule.condition.tests)


def _subject(defect: str, values: Mapping[str, Any]) -> Subject:
    tests = (read_test(fact, value) for fact, value in values.get("if", {}).items())
    return defect, str(values["cause"]), frozenset((test.fact, test.written) for test in tests)
