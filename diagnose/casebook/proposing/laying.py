"""Lays a new rule into a shop's files: a line more here and there, nothing else touched."""

from collections.abc import Iterable
from pathlib import Path

from diagnose.casebook.proposing.entries import RuleEntries
from diagnose.casebook.writing.yaml_edit import YamlFile
from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.knowledge.taken import PREFIX
from diagnose.problems import PressloreError

TRIAL = "`status: trial` counts and is marked; three further cases settle it (presslore rules promote)."
COMMENTS = {
    "causes": "A cause: something that can be put right. `turns-up`: how often a job that went wrong has it.",
    "fixes": "A fix. `cures`: how surely the cause is gone afterwards.",
    "checks": "A check. Its first outcome is what is found where all is well; `shows`: how surely the other is found\n"
    "where the cause is there; `otherwise`: how often it is found all the same.",
    "adds-to": "What this shop adds to known fixes and checks.",
}


def lay(entries: RuleEntries, shop: Path) -> list[YamlFile]:
    """The files of the shop's folder with the new rule in them, changed or new, not saved yet. Raises PressloreError
    where one of them cannot be read or holds something that does not fit."""
    files = [_rules(entries, shop)]
    if entries.kb:
        files.append(_facts(entries, shop))
    return [file for file in files if file.changed]


def _rules(entries: RuleEntries, shop: Path) -> YamlFile:
    defect = entries.defect
    path = file_about(defect, shop / "rules") or shop / "rules" / f"{defect}.yaml"
    file = YamlFile(path, head=f"What this shop knows of {defect}, besides what ships.")
    if not file.get():
        file.set(("adds-to",), defect)
        file.set(("status",), entries.rule["status"])
        file.set(("date",), entries.rule["date"])
    order = ("if", "why", "basis", "status", "date", "learned-from")
    by = {"by": {entries.rule["cause"]: entries.rule["brings"]}}
    file.append(("rules",), by | {key: entries.rule[key] for key in order if key in entries.rule}, TRIAL)
    own = {"saw": (defect,)}  # what a case saw that says nothing of it
    file.append(("cases",), {key: value for key, value in entries.case.items() if own.get(key) != value})
    return file


def _facts(entries: RuleEntries, shop: Path) -> YamlFile:
    path = shop / "kb" / f"{entries.cause}.yaml"
    file = YamlFile(path, head=f"What this shop has found out about {entries.cause}.")
    for where, value in entries.kb.items():
        if file.get(*where) is not None:
            raise PressloreError(f"{path}: {' > '.join(where)} stands there already; nothing was written")
        comment = "" if file.get(where[0]) else COMMENTS[where[0]]
        file.set(where, value, comment)
    return file


def file_about(defect: str, folder: Path) -> Path | None:
    """The shop's own file that adds to a defect, or defines it; what came in bundles is not written into."""
    for path in _yaml(folder):
        document, _ = read_yaml(path.read_bytes(), str(path))
        value = document.value if document else None
        if isinstance(value, dict) and defect in (value.get("adds-to"), value.get("defect")):
            return path
    return None


def _yaml(folder: Path) -> Iterable[Path]:
    every = (path for path in folder.rglob("*") if path.suffix in (".yaml", ".yml") and path.name[0] != ".")
    return sorted(path for path in every if not path.relative_to(folder).parts[0].startswith(PREFIX))
