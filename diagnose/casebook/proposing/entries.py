"""A draft that has no faults -> what has to stand in the shop's files."""

import re
import unicodedata
from collections.abc import Container, Mapping
from dataclasses import dataclass
from typing import Any

from diagnose.casebook.proposing import values
from diagnose.casebook.proposing.draft import Draft
from diagnose.casebook.proposing.faults import THE_NEW, answered, loud_outcome
from diagnose.casebook.proposing.fields import NO_CAUTION
from diagnose.knowledge.dangers import called_for
from diagnose.knowledge.documents.schema_check import kept_words
from diagnose.knowledge.model import Knowledge

LONGEST = 60
_OTHER = re.compile(r"[^a-z0-9]+")
_IDLE = frozenset("the a an of to in on at is are it its and or".split())


NAME_LENGTH = 60  # of what people call an outcome
OTHERWISE = "very rarely"

Plain = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class RuleEntries:
    """The plain values of a new rule by where they go: ``kb`` by path in a file of facts, the ``rule`` and its
    worked ``case`` in the file of the defect."""

    defect: str
    cause: str
    kb: Mapping[tuple[str, ...], Any]
    rule: Plain
    case: Plain


def entries(draft: Draft, knowledge: Knowledge, today: str) -> RuleEntries:
    """Everything that the draft amounts to. The draft must be without faults."""
    cause = draft.one("cause") or new_id(draft.one("new-cause"), knowledge.causes, "own-cause")
    kb: dict[tuple[str, ...], Any] = {}
    if draft.has("new-cause"):
        kb["causes", cause] = _cause(draft, knowledge)
    if draft.has("new-fix"):
        kb["fixes", new_id(draft.one("new-fix"), knowledge.fixes, "own-fix")] = _fix(draft, knowledge, cause)
    elif draft.has("fix"):
        kb["adds-to", "fixes", draft.one("fix"), cause] = values.chance(knowledge, draft.one("cures"))
    if draft.has("new-check"):
        kb["checks", _check_id(draft, knowledge)] = _check(draft, knowledge, cause)
    elif draft.has("check"):
        check, found = loud_outcome(knowledge, draft.one("check"))
        kb["adds-to", "checks", check, found, cause] = values.chance(knowledge, draft.one("shows"))
    rule = _rule(draft, knowledge, cause, today)
    return RuleEntries(draft.one("defect"), cause, kb, rule, _case(draft, knowledge, cause))


def _cause(draft: Draft, knowledge: Knowledge) -> Plain:
    return {
        "title": draft.one("new-cause"),
        "family": draft.one("family"),
        "turns-up": values.chance(knowledge, draft.one("turns-up")),
        "about": draft.one("about"),
        "basis": _basis(draft),
    }


def _fix(draft: Draft, knowledge: Knowledge, cause: str) -> Plain:
    made = _full(
        title=draft.one("new-fix"),
        steps=draft.each("step"),
        minutes=values.minutes(draft.one("minutes")),
        waits=values.wait(draft.one("waits")) if draft.has("waits") else {},
        cures={cause: values.chance(knowledge, draft.one("cures"))},
    )
    texts = (draft.one("new-fix"), *draft.each("step"))
    return {**made, **_warned(draft, knowledge, "caution", texts), "basis": _basis(draft)}


def _check(draft: Draft, knowledge: Knowledge, cause: str) -> Plain:
    telling = {
        "looks": draft.one("telling"),
        "said": [_name(draft.one("telling"))],
        "shows": {cause: values.chance(knowledge, draft.one("shows"))},
        "otherwise": values.chance(knowledge, draft.one("otherwise") or OTHERWISE),
    }
    quiet = {"looks": draft.one("quiet"), "said": [_name(draft.one("quiet"))]}
    ids = _outcome_ids(draft)
    outcomes = {ids["quiet"]: quiet, ids["telling"]: telling}
    made = {
        "title": draft.one("new-check"),
        "kind": draft.one("kind"),
        "asks": draft.one("asks"),
        "how": draft.each("how"),
        **_full(needs=draft.each("needs")),
        "minutes": values.minutes(draft.one("check-minutes")),
        **_full(waits=values.wait(draft.one("check-waits")) if draft.has("check-waits") else {}),
        "outcomes": outcomes,
    }
    texts = (draft.one("new-check"), draft.one("asks"), *draft.each("how"))
    return {**made, **_warned(draft, knowledge, "check-caution", texts), "basis": _basis(draft)}


def _check_id(draft: Draft, knowledge: Knowledge) -> str:
    return new_id(draft.one("new-check"), knowledge.checks, "own-check")


def _outcome_ids(draft: Draft) -> dict[str, str]:
    quiet = new_id(_name(draft.one("quiet")), (), "all-well")
    return {"quiet": quiet, "telling": new_id(_name(draft.one("telling")), (quiet,), "cause-there")}


def _answers(draft: Draft, knowledge: Knowledge) -> dict[str, str]:
    told = dict(answered(knowledge, said) for said in draft.each("answer"))
    if THE_NEW in told:
        found = _outcome_ids(draft)[told.pop(THE_NEW)]
        told = {_check_id(draft, knowledge): found, **told}
    return told


def _rule(draft: Draft, knowledge: Knowledge, cause: str, today: str) -> Plain:
    rule = _full(
        cause=cause,
        brings=values.chance(knowledge, draft.one("brings")),
        why=draft.one("why"),
        basis=_basis(draft),
        status="trial",
        date=today,
    )
    tests = dict(values.requirement(knowledge, each) for each in draft.each("when"))
    return {**rule, **({"if": tests} if tests else {}), **_full(**{"learned-from": draft.each("learned-from")})}


def _case(draft: Draft, knowledge: Knowledge, cause: str) -> Plain:
    return _full(
        **{
            "story": draft.one("story"),
            "item": draft.one("item"),
            "job": dict(values.stated(knowledge, each) for each in draft.each("job")),
            "saw": tuple(dict.fromkeys((draft.one("defect"), *draft.each("saw")))),
            "not-seen": draft.each("not-seen"),
            "answers": _answers(draft, knowledge),
            "tried": draft.each("tried"),
            "first": (cause,),
            "never": draft.each("never"),
        }
    )


def _basis(draft: Draft) -> str | list[str]:
    said = list(dict.fromkeys(draft.each("basis")))
    return said[0] if len(said) == 1 else said


def _warned(draft: Draft, knowledge: Knowledge, name: str, texts: tuple[str, ...]) -> dict[str, Any]:
    """The cautions named. An empty list says that none of those that the words call for applies."""
    named = [*dict.fromkeys(each for each in draft.each(name) if each != NO_CAUTION)]
    denied = NO_CAUTION in draft.each(name) and called_for(knowledge.cautions, texts)
    return {"cautions": named} if named or denied else {}


def _name(looks: str) -> str:
    """What people call an outcome: its looks, cut to a name's length between two words where it is longer."""
    if len(looks) <= NAME_LENGTH:
        return looks
    return looks[:NAME_LENGTH].rsplit(" ", 1)[0].rstrip() or looks[:NAME_LENGTH].strip()


def _full(**fields: Any) -> dict[str, Any]:
    """The fields that say something."""
    return {name: value for name, value in fields.items() if value not in ("", (), {}, [])}


def new_id(title: str, taken: Container[str], fallback: str) -> str:
    """An id that says what the title says, in small letters, that nothing else has: ``door-stands-open``."""
    plain = unicodedata.normalize("NFKD", title.casefold().replace("'", "").replace("’", ""))
    words = _OTHER.sub(" ", "".join(letter for letter in plain if not unicodedata.combining(letter))).split()
    telling = [word for word in words if word not in _IDLE] or words
    return unique(_joined(telling) or fallback, taken)


def unique(wanted: str, taken: Container[str]) -> str:
    """The id itself, or with the first free number behind it where it is taken, or no id may be called so."""
    if wanted not in taken and not kept_words().fullmatch(wanted):
        return wanted
    number = 2
    while f"{wanted}-{number}" in taken:
        number += 1
    return f"{wanted}-{number}"


def _joined(words: list[str]) -> str:
    joined = ""
    for word in words:
        longer = f"{joined}-{word}" if joined else word[: LONGEST - 6]
        if len(longer) > LONGEST - 6:  # room for a number
            break
        joined = longer
    return joined
