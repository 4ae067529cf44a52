"""What a file says once for all its entries, or in short, written out in full: readers find every entry whole.

In any file ``usual-basis`` is the basis of each entry that names none. In a rule file a rule may say
``by: {CAUSE: CHANCE}`` for ``cause`` and ``brings``, look-alikes may stand by the other defect's id, and a worked case
that names nothing seen saw the file's defect. In a kb file an item's family is one of its facts; ``usual-facts`` are
those of each item that does not tell of them itself, and so is what they may be instead (``usual-may-be``). Each value
that is written out keeps the place of what it comes from.
"""

from dataclasses import dataclass, replace
from typing import Final

from diagnose.knowledge.documents.document import Document, KeyPath, Plain

USUAL: Final = "usual-basis"
USUAL_FACTS: Final = "usual-facts"
USUAL_MAY_BE: Final = "usual-may-be"
FAMILY: Final = "item.family"
RESTING: Final = (  # the kinds of kb entries that say on whose word they stand
    "causes", "checks", "fixes", "items", "cautions", "glossary", "refused", "dangers", "elsewhere", "handling",
    "salvage", "ready", "bodies", "readings",
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
        whole = {key: each for key, each in value.items() if key not in (USUAL_FACTS, USUAL_MAY_BE)}
        for kind in RESTING if USUAL in value else ():
            if isinstance(entries := value.get(kind), dict):
                whole[kind] = {name: self._resting(entry, (kind, name), value) for name, entry in entries.items()}
        if isinstance(items := whole.get("items"), dict):
            whole["items"] = {name: self._item(entry, ("items", name), value) for name, entry in items.items()}
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

    def _item(self, entry: Plain, path: KeyPath, file: dict[str, Plain]) -> Plain:
        if not isinstance(entry, dict) or not isinstance(entry.get("facts"), dict):
            return entry
        if "family" in entry:
            below = (*path, "facts", FAMILY)
            kept = FAMILY in self._mapping(entry, "facts")
            self._stands(below, (*path, "family"), self.values.get((*path, "family")), kept=kept)
            entry = {**entry, "facts": {FAMILY: entry["family"], **self._mapping(entry, "facts")}}
        return self._may_be(self._usual(entry, path, file), path, file)

    def _usual(self, entry: dict[str, Plain], path: KeyPath, file: dict[str, Plain]) -> dict[str, Plain]:
        """The item with those facts of the whole file that it does not tell of itself."""
        own, usual = self._mapping(entry, "facts"), self._mapping(file, USUAL_FACTS)
        added = {fact: value for fact, value in usual.items() if fact not in own}
        for fact in added:
            self._stands((*path, "facts", fact), (USUAL_FACTS, fact), self.values.get((USUAL_FACTS, fact)))
        return {**entry, "facts": {**own, **added}}

    def _may_be(self, entry: dict[str, Plain], path: KeyPath, file: dict[str, Plain]) -> dict[str, Plain]:
        """The item with what its facts may be by the whole file, but for what they are anyway."""
        if not isinstance(own := entry.get("may-be", {}), dict):
            return entry
        facts, added = self._mapping(entry, "facts"), dict[str, Plain]()
        for fact, others in self._mapping(file, USUAL_MAY_BE).items():
            if fact in facts and fact not in own and isinstance(others, list):
                added[fact] = [each for each in others if not isinstance(each, dict) or each.get("is") != facts[fact]]
                self._stands((*path, "may-be", fact), (USUAL_MAY_BE, fact), self.values.get((USUAL_MAY_BE, fact)))
        return {**entry, "may-be": {**added, **own}} if added else entry

    def _mapping(self, whole: dict[str, Plain], key: str) -> dict[str, Plain]:
        """What a mapping of the file or of an entry holds, without what of the file was refused."""
        held = whole.get(key)
        held = held if isinstance(held, dict) else {}
        return {name: each for name, each in held.items() if (key, name) not in self.broken}

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
