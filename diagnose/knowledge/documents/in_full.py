"""What a file says once for all its entries, or in short, written out in full: readers find every entry whole.

In any file ``usual-basis`` is the basis of each entry that names none. In a rule file a rule may say
``by: {CAUSE: CHANCE}`` for ``cause`` and ``brings``, look-alikes may stand by the other defect's id, and a worked case
that names nothing seen saw the file's defect. In a kb file an item's family is one of its facts, and what is in
``usual-may-be`` may be instead of a fact of each item that says nothing of that fact itself. Each value that is written
out keeps the place of what it comes from.
"""

from dataclasses import dataclass, replace
from typing import Final

from diagnose.knowledge.documents.document import Document, KeyPath, Plain

USUAL: Final = "usual-basis"
USUAL_MAY_BE: Final = "usual-may-be"
FAMILY: Final = "item.family"
RESTING: Final = (  # the kinds of kb entries that say on whose word they stand
    "causes", "checks", "fixes", "items", "cautions", "glossary", "refused", "dangers", "elsewhere", "handling",
    "ready", "bodies", "readings",
)  # fmt: skip


def in_full(document: Document, kind: str) -> Document:
    """The document of a file of ``kind`` with everything written out. What has another shape than the schema wants
    stays as it is."""
    if kind not in ("kb", "rule") or not isinstance(document.value, dict):
        return document
    copy = _Copy(document, dict(document.keys), dict(document.values), set(document.broken))
    value = copy.rule_file(document.value) if kind == "rule" else copy.kb_file(document.value)
    return replace(document, value=value, keys=copy.keys, values=copy.values, broken=frozenset(copy.broken))


@dataclass(frozen=True, slots=True)
class _Copy:
    """Where the values of the copy stand, as far as it has been made, and which of them are broken."""

    document: Document
    keys: dict[KeyPath, tuple[int, int]]
    values: dict[KeyPath, tuple[int, int]]
    broken: set[KeyPath]

    def rule_file(self, value: dict[str, Plain]) -> dict[str, Plain]:
        whole = {**value}
        defect = value.get("defect") or value.get("adds-to")
        if isinstance(rules := value.get("rules"), list):
            whole["rules"] = [self._rule(entry, ("rules", number), value) for number, entry in enumerate(rules)]
        if isinstance(cases := value.get("cases"), list) and isinstance(defect, str):
            at = ("defect",) if "defect" in value else ("adds-to",)
            each = enumerate(cases)
            whole["cases"] = [self._with(case, ("cases", number), "saw", [defect], at) for number, case in each]
        if isinstance(alike := value.get("look-alikes"), dict):
            whole["look-alikes"] = [self._alike(*pair, number) for number, pair in enumerate(alike.items())]
        return whole

    def kb_file(self, value: dict[str, Plain]) -> dict[str, Plain]:
        whole = {key: each for key, each in value.items() if key != USUAL_MAY_BE}
        for kind in RESTING if USUAL in value else ():
            if isinstance(entries := value.get(kind), dict):
                whole[kind] = {name: self._resting(entry, (kind, name), value) for name, entry in entries.items()}
        if isinstance(items := whole.get("items"), dict):
            usual = value.get(USUAL_MAY_BE, {})
            whole["items"] = {name: self._item(entry, ("items", name), usual) for name, entry in items.items()}
        return whole

    def _rule(self, entry: Plain, path: KeyPath, file: dict[str, Plain]) -> Plain:
        if isinstance(entry, dict) and isinstance(by := entry.get("by"), dict) and len(by) == 1:
            [(cause, chance)] = by.items()
            self._stands((*path, "cause"), (*path, "by"), self.keys.get((*path, "by", cause)))
            self._stands((*path, "brings"), (*path, "by", cause), self.values.get((*path, "by", cause)))
            entry = {"cause": cause, "brings": chance, **{key: each for key, each in entry.items() if key != "by"}}
        return self._resting(entry, path, file)

    def _resting(self, entry: Plain, path: KeyPath, file: dict[str, Plain]) -> Plain:
        return self._with(entry, path, "basis", file[USUAL], (USUAL,)) if USUAL in file else entry

    def _item(self, entry: Plain, path: KeyPath, usual: Plain) -> Plain:
        if not isinstance(entry, dict) or not isinstance(facts := entry.get("facts"), dict):
            return entry
        entry = self._may_be(entry, facts, path, usual) if isinstance(usual, dict) else entry
        if "family" not in entry:
            return entry
        below = (*path, "facts", FAMILY)
        self._stands(below, (*path, "family"), self.values.get((*path, "family")), kept=FAMILY in facts)
        return {**entry, "facts": {FAMILY: entry["family"], **facts}}

    def _may_be(
        self, entry: dict[str, Plain], facts: dict[str, Plain], path: KeyPath, usual: dict[str, Plain]
    ) -> dict[str, Plain]:
        """The item with what a fact of it may be by the whole file, but for what it is anyway."""
        own = entry.get("may-be", {})
        if not isinstance(own, dict):
            return entry
        added: dict[str, Plain] = {}
        for fact, others in usual.items():
            told = fact in own or (USUAL_MAY_BE, fact) in self.broken
            if told or fact not in facts or not isinstance(others, list):
                continue
            added[fact] = [each for each in others if not isinstance(each, dict) or each.get("is") != facts[fact]]
            self._stands((*path, "may-be", fact), (USUAL_MAY_BE, fact), self.values.get((USUAL_MAY_BE, fact)))
        return {**entry, "may-be": {**added, **own}} if added else entry

    def _alike(self, defect: str, tell: Plain, number: int) -> Plain:
        was, path = ("look-alikes", defect), ("look-alikes", number)
        self._stands(path, (), self.keys.get(was))
        self._stands((*path, "defect"), was, self.keys.get(was))
        self._stands((*path, "tell"), was, self.values.get(was))
        if was in self.broken:
            self.broken.add(path)
        return {"defect": defect, "tell": tell}

    def _with(self, entry: Plain, path: KeyPath, key: str, value: Plain, at: KeyPath) -> Plain:
        """An entry with a value of the whole file, unless it has its own."""
        if not isinstance(entry, dict) or key in entry:
            return entry
        self._stands((*path, key), at, self.values.get(at))
        return {**entry, key: value}

    def _stands(self, path: KeyPath, at: KeyPath, value: tuple[int, int] | None, *, kept: bool = False) -> None:
        """Note where a value that is written out stands: its key where ``at`` does."""
        if value is not None and not kept:
            self.values[path] = value
            if at in self.keys:
                self.keys[path] = self.keys[at]
