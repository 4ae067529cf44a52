"""Picks what a shop can share: its settled rules, and of its own entries those that they lean on."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from diagnose.casebook.sharing.bundle import ADDS, KB_FILE, KINDS
from diagnose.casebook.sharing.leaning import leaned_on
from diagnose.casebook.sharing.shop_files import ShopFiles, Values, for_others, private
from diagnose.knowledge.model import Knowledge

SETTLED = "settled"
ON_TRIAL = "on trial"
OF_ITS_OWN = "about the shop's own presses"
DEFECT_ON_TRIAL = "about a defect on trial"
_RULE_KEYS = ("cause", "brings", "if", "why", "basis", "date")
_DEFECT_KEYS = ("defect", "title", "looks", "said", "look-alikes", "otherwise", "basis")


@dataclass(frozen=True, slots=True)
class Picked:
    """``files``: plain values by name within the bundle. ``date``: of the newest rule. ``rules``: how many there are.
    ``left``: by reason, how many rules stay out. ``versions``: how many entries that ship the shop has its own
    version of, which stays out too."""

    files: Mapping[str, Values]
    date: str
    rules: int
    left: Mapping[str, int]
    versions: int


@dataclass(slots=True)
class _Sheet:
    """What is picked of one defect. ``head``: what the file says before its rules."""

    head: dict[str, Any]
    rules: list[Values] = field(default_factory=list)

    @property
    def date(self) -> str:
        return max(str(rule["date"]) for rule in self.rules)

    def add(self, value: Values, rules: list[Values]) -> None:
        """What another file of the shop says of the defect: its rules, names and look-alikes."""
        self.rules += rules
        for key in ("said", "look-alikes"):
            if ADDS in value and value.get(key):
                self.head[key] = [*self.head.get(key, ()), *value[key]]

    def values(self, known: set[str]) -> Values:
        """The file. Look-alikes that are not ``known`` to others stay out, and dates that all the rules share."""
        alike = [one for one in self.head.get("look-alikes", ()) if one["defect"] in known]
        head = (
            {**self.head, "look-alikes": alike} if alike else {k: v for k, v in self.head.items() if k != "look-alikes"}
        )
        rules = [{k: v for k, v in rule.items() if (k, v) != ("date", self.date)} for rule in self.rules]
        return {**for_others(head), "status": SETTLED, "date": self.date, "rules": rules}


def pick(shop: ShopFiles) -> Picked:
    """What can be shared of a shop's files."""
    left: Counter[str] = Counter()
    sheets = _sheets(shop, left)
    known = {*shop.shipped.defects, *sheets}
    rules = [rule for sheet in sheets.values() for rule in sheet.rules]
    entries = leaned_on(shop, rules)
    files = {f"rules/{defect}.yaml": sheet.values(known) for defect, sheet in sheets.items()}
    return Picked(
        files=files | ({KB_FILE: entries} if entries else {}),
        date=max((sheet.date for sheet in sheets.values()), default=""),
        rules=len(rules),
        left=left,
        versions=sum(len(shop.versions(kind)) for kind in KINDS),
    )


def _sheets(shop: ShopFiles, left: Counter[str]) -> dict[str, _Sheet]:
    """By defect, what is picked: the shop's own defects first, then what it adds to defects."""
    found: dict[str, _Sheet] = {}
    own = {value["defect"] for value in shop.rules if "defect" in value} - set(shop.shipped.defects)
    for value in sorted(shop.rules, key=lambda value: ADDS in value):
        defect = value.get(ADDS) or value["defect"]
        rules = list(_settled(value, defect, shop.shipped, left))
        opens = defect not in own or (ADDS not in value and value["status"] == SETTLED)
        if not rules:
            continue
        if defect not in found and not opens:
            left[DEFECT_ON_TRIAL] += len(rules)
            continue
        head = {key: value[key] for key in _DEFECT_KEYS if key in value} if defect in own else {ADDS: defect}
        found.setdefault(defect, _Sheet(head)).add(value, rules)
    return found


def _settled(value: Values, defect: str, shipped: Knowledge, left: Counter[str]) -> Iterator[Values]:
    """The rules of a file that can be shared; the others are counted."""
    for rule in value["rules"]:
        dated = {"date": value["date"], **rule}
        if rule.get("status", value["status"]) != SETTLED:
            left[ON_TRIAL] += 1
        elif private(rule):
            left[OF_ITS_OWN] += 1
        elif not _ships(rule, defect, shipped):
            yield for_others({key: dated[key] for key in _RULE_KEYS if key in dated})


def _ships(rule: Values, defect: str, shipped: Knowledge) -> bool:
    """Whether the rule is one of those that ship, as in a shop's version of a whole file."""
    known = shipped.defects.get(defect)
    return known is not None and any(
        (one.cause, one.why, one.brings.word or one.brings.value)
        == (rule["cause"], rule["why"].strip(), rule["brings"])
        and {test.fact for test in one.condition.tests} == set(rule.get("if", ()))
        for one in known.rules
    )
