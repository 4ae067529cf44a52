"""What a bundle may say: settled rules, and the entries of its own that they lean on. All else is refused."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from diagnose.casebook.sharing.bundle import ADDS, CALLING, KINDS, MOST_ENTRIES, MOST_TOLD, STEPS, Bundle
from diagnose.characters import named
from diagnose.knowledge.crosscheck.texts import texts_in
from diagnose.knowledge.disguise import hidden, pretended
from diagnose.knowledge.documents.document import Document
from diagnose.knowledge.documents.schema_check import check_structure
from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.problems import Place, PressloreError, Problem

_TURNS = re.compile("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]")  # the direction of reading


@dataclass(frozen=True, slots=True)
class Contents:
    """The plain values of a bundle's files, by name."""

    kb: Mapping[str, Mapping[str, Any]]
    rules: Mapping[str, Mapping[str, Any]]

    def ids(self, kind: str) -> Iterator[tuple[str, str]]:
        """The file and the id of everything of a kind that the bundle defines."""
        for name, value in self.kb.items():
            yield from ((name, key) for key in value.get(kind, ()))

    def rule_entries(self) -> Iterator[tuple[str, str, Mapping[str, Any]]]:
        """The file, the defect and the values of every rule."""
        for name, value in self.rules.items():
            yield from ((name, str(value.get(ADDS) or value.get("defect")), rule) for rule in value["rules"])


def contents(bundle: Bundle, shown: str) -> Contents:
    """What stands in the bundle. Raises PressloreError with everything that should not; ``shown`` names the bundle."""
    kb: dict[str, Mapping[str, Any]] = {}
    rules: dict[str, Mapping[str, Any]] = {}
    problems: list[Problem] = []
    left = MOST_ENTRIES
    for name, text in bundle.files.items():
        document, found, number = _document(name, text, f"{shown}/{name}", left)
        left -= number
        if document is not None and not found and isinstance(document.value, dict):
            (kb if name.startswith("kb/") else rules)[name] = document.value
            found = [*(_wrong_kb if name.startswith("kb/") else _wrong_rules)(document)]
        problems += found
    whole = Contents(kb, rules)
    problems += [] if problems else [*_strange_additions(whole, shown)]
    if problems:
        raise PressloreError(problems[:MOST_TOLD] + [_more(problems, shown)] * (len(problems) > MOST_TOLD))
    return whole


def _more(problems: Sequence[Problem], shown: str) -> Problem:
    return _problem(Place(shown), f"{len(problems) - MOST_TOLD} problems more")


def _entries(value: Any) -> int:
    """How many entries a file holds, whatever it is."""
    each = value.values() if isinstance(value, dict) else ()
    return sum(len(one) for one in each if isinstance(one, dict | list))


def _document(name: str, text: str, shown: str, left: int) -> tuple[Document | None, list[Problem], int]:
    """The file as plain values, what is wrong with it, and how many entries it holds, of which ``left`` may be."""
    if turn := _TURNS.search(text):
        place = Place(shown, text.count("\n", 0, turn.start()) + 1, 1)
        return None, [_problem(place, "a sign that turns the direction of reading, so that text shows as another")], 0
    document, problems = read_yaml(text.encode(), shown)
    if document is None:
        return None, problems, 0
    if (number := _entries(document.value)) > left:
        return None, [_problem(Place(shown), "too many entries", f"at most {MOST_ENTRIES:,} in a bundle")], 0
    problems += _disguised(document)
    document, more = check_structure(document, "kb" if name.startswith("kb/") else "rule")
    return document, [*problems, *more], number


def _disguised(document: Document) -> Iterator[Problem]:
    """Texts that read otherwise than they are written, so that nobody could find a word in them."""
    for path, text in texts_in(document.value):
        if word := pretended(text):
            wrong = f"a word of letters from two alphabets, or of one that passes for another ({word!a})"
            yield _problem(document.value_place(path), wrong, "each word, and what stands beside it, in one alphabet")
        if sign := hidden(text):
            yield _problem(document.value_place(path), f"a sign that shows nothing ({named(sign)})")


def _problem(place: Place, wrong: str, expected: str = "") -> Problem:
    return Problem(place=place, code="bundle", wrong=wrong, expected=expected, hint="ask for a fresh bundle")


def _wrong_kb(document: Document) -> Iterator[Problem]:
    assert isinstance(document.value, dict)
    value: Mapping[str, Any] = document.value
    for key in value:
        if key not in (*KINDS, ADDS):
            wrong = f'"{key}" has no place in a bundle'
            yield _problem(document.key_place((key,)), wrong, f"{', '.join(KINDS)} or {ADDS}")
    for kind in STEPS:
        for step, entry in value.get(kind, {}).items():
            for key in sorted({"status", "confirmed-by"} & set(entry)):
                wrong = f'"{key}" has no place in a bundle: each shop settles itself what came from another'
                yield _problem(document.key_place((kind, step, key)), wrong)
    for check, entry in value.get("checks", {}).items():
        for outcome in (name for name, each in entry["outcomes"].items() if "also" in each):
            yield _entailing(document.key_place(("checks", check, "outcomes", outcome, "also")))
    cautions = value.get("cautions", {})
    for caution, entry in cautions.items():
        for key in CALLING & set(entry):
            place = document.key_place(("cautions", caution, key))
            yield _problem(place, f'"{key}" has no place in a bundle: each shop says itself what calls for a caution')


def _entailing(place: Place) -> Problem:
    return _problem(place, '"also" has no place in a bundle: what words entail is for each shop to say')


def _wrong_rules(document: Document) -> Iterator[Problem]:
    value: Any = document.value
    if "also" in value:
        yield _entailing(document.key_place(("also",)))
    if "cases" in value:
        yield _problem(document.key_place(("cases",)), "worked cases have no place in a bundle")
    if value["status"] != "settled":
        yield _problem(document.value_place(("status",)), "rules on trial have no place in a bundle", "settled")
    for number, rule in enumerate(value["rules"]):
        if rule.get("status", "settled") != "settled":
            place = document.value_place(("rules", number, "status"))
            yield _problem(place, "a rule on trial has no place in a bundle", "settled")
        for key in ("learned-from", "confirmed-by"):
            if key in rule:
                place = document.key_place(("rules", number, key))
                yield _problem(place, "the numbers of a shop's cases have no place in a bundle")


def _strange_additions(whole: Contents, shown: str) -> Iterator[Problem]:
    """A bundle adds its own causes to known fixes and checks, and changes nothing of what they say of others."""
    own = {cause for _, cause in whole.ids("causes")}
    for name, value in whole.kb.items():
        added = value.get(ADDS, {})
        outcomes = [one for check in added.get("checks", {}).values() for one in check.values()]
        for chances in (*added.get("fixes", {}).values(), *outcomes):
            for cause in sorted(set(chances) - own):
                wrong = f'under {ADDS}, "{cause}" is no cause that the bundle brings along'
                yield _problem(Place(f"{shown}/{name}"), wrong)
