"""The texts of a bundle as a shop keeps them: all of it on trial, but for what cases here have confirmed."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from diagnose.casebook.sharing.bundle import ADDS, STEPS, Bundle
from diagnose.casebook.sharing.shop_copy import write
from diagnose.casebook.writing.yaml_edit import YamlFile
from diagnose.files.reading import read
from diagnose.knowledge.documents.schema_check import check_structure
from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.knowledge.folders import PARTS
from diagnose.knowledge.taken import TakenBundle
from diagnose.knowledge.trial import SETTLED, TRIAL

SETTLING = ("status", "confirmed-by")  # what this shop says of a step of another's


def landed(bundle: Bundle, new: TakenBundle, earlier: "Earlier", scratch: Path) -> tuple[dict[str, str], int]:
    """The texts as they will stand in the shop's folder: rules, checks and fixes on trial, but for what cases have
    confirmed of those that stayed as they were. And how many rules those are. Of a bundle's checks and
    fixes nothing need be said: they are on trial until it is."""
    files, kept, kb = {}, 0, _entries(bundle)
    for name, text in bundle.files.items():
        part, file = name.split("/")
        whole = f"# Taken from another shop's bundle of {bundle.date}, SHA-256 {bundle.digest}.\n"
        whole += text.removeprefix("\ufeff")
        write(scratch / name, whole)
        yaml = YamlFile(scratch / name)
        if part == "rules":
            kept += _put_on_trial(yaml, earlier, kb)
        else:
            _keep_settled(yaml, earlier)
        whole = yaml.text()
        files[f"{part}/{new.folder}/{file}"] = whole
    return files, kept


def _put_on_trial(file: YamlFile, earlier: "Earlier", kb: Mapping[str, Any]) -> int:
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


def _keep_settled(file: YamlFile, earlier: "Earlier") -> None:
    """Checks and fixes that this shop settled stay so where not a word of them has changed."""
    for kind in STEPS:
        for key, step in (file.get(kind) or {}).items():
            known = earlier.steps.get((kind, key))
            if known and known.get("status") == SETTLED and _told(known) == step:
                for said in SETTLING:
                    if said in known:
                        file.set((kind, key, said), known[said])


def _told(step: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in step.items() if key not in SETTLING}


@dataclass(frozen=True, slots=True)
class Earlier:
    """The rules of the earlier bundle as they stand in the shop's folder, by all that their cases spoke of, and its
    checks and fixes by kind and id."""

    rules: Mapping[str, Mapping[str, Any]]
    steps: Mapping[tuple[str, str], Mapping[str, Any]]

    @classmethod
    def of(cls, folder: Path, old: TakenBundle | None) -> "Earlier":
        kb, sheets = (_values(folder, part, old) for part in PARTS)
        whole, found = _merged(kb), {}
        for sheet in sheets:
            defect = str(sheet.get(ADDS) or sheet.get("defect"))
            for rule in sheet.get("rules", ()):
                found[_standing(defect, rule, whole)] = {"status": sheet.get("status"), **rule}
        return cls(found, {(kind, key): step for kind in STEPS for key, step in whole.get(kind, {}).items()})


def _standing(defect: str, rule: Mapping[str, Any], kb: Mapping[str, Any]) -> str:
    """A rule with all that a case that confirms it speaks of: its cause, and the fixes for that."""
    said = {key: value for key, value in rule.items() if key not in ("status", "confirmed-by", "date")}
    cause = rule.get("cause")
    fixes = {key: _told(fix) for key, fix in kb.get("fixes", {}).items() if cause in fix.get("cures", {})}
    return json.dumps([defect, said, kb.get("causes", {}).get(cause), fixes], sort_keys=True, default=str)


def _entries(bundle: Bundle) -> dict[str, Any]:
    texts = (text for name, text in bundle.files.items() if name.startswith("kb/"))
    return _merged(_value(text.encode(), "kb") for text in texts)


def _merged(values: Iterable[Mapping[str, Any]]) -> dict[str, Any]:
    whole: dict[str, Any] = {}
    for value in values:
        for kind in ("causes", *STEPS):
            whole.setdefault(kind, {}).update(value.get(kind, {}))
    return whole


def _values(folder: Path, part: str, old: TakenBundle | None) -> list[Mapping[str, Any]]:
    """What the files of a bundle say that was taken; a file with faults says nothing."""
    paths = sorted((folder / part / old.folder).glob("*.yaml")) if old else []
    return [_value(read(path), part) for path in paths if path.is_file()]


def _value(data: bytes, part: str) -> Mapping[str, Any]:
    document, problems = read_yaml(data, "")
    if document is None or problems:
        return {}
    document, wrong = check_structure(document, PARTS[part])
    if wrong:
        return {}
    return document.value if isinstance(document.value, dict) else {}
