"""What a draft still lacks and what is wrong with it, all at once, before anything is written."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from diagnose.casebook.proposing import values
from diagnose.casebook.proposing.draft import Draft
from diagnose.casebook.proposing.fields import CHANCE, FIELDS, KINDS, NO_CAUTION, NUMBER, WAIT
from diagnose.casebook.proposing.values import Wrong
from diagnose.characters import named, unsafe
from diagnose.knowledge.conditions import may_overlap
from diagnose.knowledge.crosscheck.basis import PLAIN_PHRASES
from diagnose.knowledge.dangers import called_for
from diagnose.knowledge.model import SHIPPED, THIS_SHOP, Knowledge, Rule
from diagnose.knowledge.near import did_you_mean

THE_NEW = "new-check"
COMMON, OWN_CASES = PLAIN_PHRASES
NEW_CAUSE, NEW_FIX = ("family", "about", "turns-up"), ("step", "minutes", "waits", "caution")
NEW_CHECK = (
    *("kind", "asks", "how", "needs", "check-minutes", "check-waits"),
    *("quiet", "telling", "otherwise", "check-caution"),
)
MUST_OF_CHECK = ("kind", "asks", "how", "check-minutes", "quiet", "telling", "shows")


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with a field; ``missing`` where it says nothing and must."""

    field: str
    wrong: str
    missing: bool = False

    def __str__(self) -> str:
        return f"--{self.field}: {self.wrong}"


def faults(draft: Draft, knowledge: Knowledge) -> list[Fault]:
    """Everything that a draft lacks and everything wrong with it, in the order of the fields."""
    found = [*_missing(draft, knowledge), *_out_of_place(draft), *_misread(draft, knowledge), *_unseen(draft)]
    if not found:
        found += [*_against_known(draft, knowledge), *_contradictions(draft, knowledge)]
    order = list(FIELDS)
    return sorted(found, key=lambda fault: order.index(fault.field))


def wanted_cautions(knowledge: Knowledge, steps: tuple[str, ...]) -> tuple[str, ...]:
    """The cautions that the words of some steps call for."""
    return called_for(knowledge.cautions, steps)


def cured_by(knowledge: Knowledge, cause: str) -> list[str]:
    """The fixes that put a known cause right."""
    return [fix.id for fix in knowledge.fixes.values() if cause in fix.cures]


def told_by(knowledge: Knowledge, cause: str) -> list[tuple[str, str]]:
    """The checks, each with an outcome, that tell a known cause."""
    return [(check.id, o.id) for check in knowledge.checks.values() for o in check.outcomes if cause in o.shows]


def same_rule(draft: Draft, knowledge: Knowledge) -> Rule | None:
    """The known rule that already says that this cause brings on this defect, where both can hold at once."""
    defect = knowledge.defects.get(draft.one("defect"))
    tests = dict(values.requirement(knowledge, each) for each in draft.each("when"))
    wanted = values.condition(tests)
    rules = defect.rules if defect else ()
    return next((r for r in rules if r.cause == draft.one("cause") and may_overlap(r.condition, wanted)), None)


def _missing(draft: Draft, knowledge: Knowledge) -> Iterator[Fault]:
    must = ["defect", "brings", "why", "basis", "story"]
    new = draft.has("new-cause")
    if not new and not draft.has("cause"):
        yield Fault("cause", "which cause? Its id, or --new-cause with a title", missing=True)
    must += NEW_CAUSE if new else ()
    if new and not draft.has("fix") and not draft.has("new-fix"):
        yield Fault("fix", "what puts the new cause right? Its id, or --new-fix with a title", missing=True)
    must += ("step", "minutes", "cures") if draft.has("new-fix") else ("cures",) if draft.has("fix") else ()
    must += MUST_OF_CHECK if draft.has("new-check") else ("shows",) if draft.has("check") else ()
    must += ["learned-from"] if OWN_CASES in draft.each("basis") else []
    for field, steps in (("caution", "step"), ("check-caution", "how")):
        calls = wanted_cautions(knowledge, draft.each(steps))
        if calls and not draft.has(field):
            yield Fault(field, f"these steps call for: {', '.join(calls)} (or say {NO_CAUTION})", missing=True)
    yield from (Fault(name, FIELDS[name].about, missing=True) for name in dict.fromkeys(must) if not draft.has(name))


def _unseen(draft: Draft) -> Iterator[Fault]:
    """Characters that no file of a shop may hold."""
    for name in FIELDS:
        for _, sign in (found for said in draft.each(name) for found in unsafe(said)):
            yield Fault(name, f"a character that is not shown ({named(sign)}): leave it out")
            break


def _out_of_place(draft: Draft) -> Iterator[Fault]:
    for known, new in (("cause", "new-cause"), ("fix", "new-fix"), ("check", "new-check")):
        if draft.has(known) and draft.has(new):
            yield Fault(new, f"give either --{known} or --{new}")
    for fields, needs in ((NEW_CAUSE, "new-cause"), (NEW_FIX, "new-fix"), (NEW_CHECK, "new-check")):
        if not draft.has(needs):
            yield from (Fault(name, f"goes with --{needs} only") for name in fields if draft.has(name))
    for name, one, other in (("cures", "fix", "new-fix"), ("shows", "check", "new-check")):
        if draft.has(name) and not draft.has(one) and not draft.has(other):
            yield Fault(name, f"goes with --{one} or --{other} only")


def _misread(draft: Draft, knowledge: Knowledge) -> Iterator[Fault]:
    """What cannot be read, is too long, or names something unknown."""
    for name in FIELDS:
        for said in draft.each(name):
            try:
                checked(name, said, knowledge)
            except Wrong as wrong:
                yield Fault(name, str(wrong))
    for name in ("when", "job"):
        facts = [said.partition("=")[0].strip() for said in draft.each(name)]
        yield from (Fault(name, f"{fact} is named twice") for fact in dict.fromkeys(facts) if facts.count(fact) > 1)


def checked(name: str, said: str, knowledge: Knowledge) -> None:
    """Raises Wrong where a field cannot say this."""
    longest = FIELDS[name].longest
    if longest and len(said) > longest:
        raise Wrong(f"{len(said)} letters", f"at most {longest}")
    _reader(name, knowledge)(said)


def _reader(name: str, knowledge: Knowledge) -> Callable[[str], object]:
    ids = {"defect": "defects", "saw": "defects", "not-seen": "defects", "cause": "causes", "never": "causes"}
    ids |= {"fix": "fixes", "tried": "fixes", "item": "items"}
    if name in ids:
        return lambda said: values.known(said, getattr(knowledge, ids[name]), name)
    if FIELDS[name].kind == CHANCE:
        return lambda said: values.chance(knowledge, said)
    if FIELDS[name].kind == NUMBER:
        return values.minutes
    if FIELDS[name].kind == WAIT:
        return values.wait
    readers: dict[str, Callable[[str], object]] = {
        "when": lambda said: values.requirement(knowledge, said),
        "job": lambda said: values.stated(knowledge, said),
        "check": lambda said: loud_outcome(knowledge, said),
        "answer": lambda said: answered(knowledge, said),
        "basis": lambda said: _one_of(said, [*PLAIN_PHRASES, *knowledge.sources], "a source or a plain phrase"),
        "family": lambda said: _one_of(said, sorted({c.family for c in knowledge.causes.values()}), "a family"),
        "kind": lambda said: _one_of(said, KINDS, "a kind of check"),
        "caution": lambda said: _one_of(said, [*knowledge.cautions, NO_CAUTION], "a caution"),
    }
    readers["check-caution"] = readers["caution"]
    return readers.get(name, lambda said: said)


def outcome(knowledge: Knowledge, said: str) -> tuple[str, str]:
    """The check and outcome of ``check=outcome``. Raises Wrong."""
    check, found = values.pair(said, "probe-the-platen=reads-low")
    values.known(check, knowledge.checks, "check")
    values.known(found, {o.id: o for o in knowledge.checks[check].outcomes}, f"outcome of {check}")
    return check, found


def answered(knowledge: Knowledge, said: str) -> tuple[str, str]:
    """The same in a worked case, where the new check may be named: ``new-check=telling``. Raises Wrong."""
    if said.startswith(f"{THE_NEW}="):
        return THE_NEW, _one_of(said.partition("=")[2].strip(), ("quiet", "telling"), "what the new check finds")
    return outcome(knowledge, said)


def loud_outcome(knowledge: Knowledge, said: str) -> tuple[str, str]:
    """The same for an outcome that may tell a cause: not the first, which is found where all is well. Raises Wrong."""
    check, found = outcome(knowledge, said)
    first, *others = (o.id for o in knowledge.checks[check].outcomes)
    if found == first:
        raise Wrong(f"“{found}” is what {check} finds where all is well", f"one of {', '.join(others)}")
    return check, found


def _one_of(said: str, allowed: list[str] | tuple[str, ...], what: str) -> str:
    if said not in allowed:
        shown = f"one of {', '.join(allowed)}" if len(allowed) <= 16 else ""
        raise Wrong(f"“{said}” is not {what}", shown, did_you_mean(said, allowed))
    return said


def _against_known(draft: Draft, knowledge: Knowledge) -> Iterator[Fault]:
    """Where everything can be read: what is already known."""
    for name, kind in (("new-cause", "causes"), ("new-fix", "fixes"), ("new-check", "checks")):
        titles = {entry.title.casefold(): entry.id for entry in getattr(knowledge, kind).values()}
        if known := titles.get(draft.one(name).casefold()):
            yield Fault(name, f"this is known: say --{name.removeprefix('new-')} {known}")
    cause = draft.one("cause")
    if draft.has("fix") and cause in knowledge.fixes[draft.one("fix")].cures:
        yield Fault("fix", f"{draft.one('fix')} is known to cure {cause} already: leave --fix and --cures out")
    if draft.has("check") and tuple(loud_outcome(knowledge, draft.one("check"))) in told_by(knowledge, cause):
        yield Fault("check", "this outcome is known to tell the cause already: leave --check and --shows out")
    if rule := same_rule(draft, knowledge):
        whose = {THIS_SHOP: "this shop's own", SHIPPED: "the shipped"}.get(rule.origin, "a taken")
        yield Fault(
            "cause", f"{whose} rule at {rule.place} says that already: change that one, or say when with --when"
        )


def _contradictions(draft: Draft, knowledge: Knowledge) -> Iterator[Fault]:
    """Where everything can be read: what cannot be true together."""
    defect, cause = draft.one("defect"), draft.one("cause")
    if defect in draft.each("not-seen") or set(draft.each("saw")) & set(draft.each("not-seen")):
        yield Fault("not-seen", "the same defect cannot be seen and not be there")
    if cause and cause in draft.each("never"):
        yield Fault("never", f"{cause} is the cause that must come first")
    checks = [answered(knowledge, said)[0] for said in draft.each("answer")]
    if THE_NEW in checks and not draft.has(THE_NEW):
        yield Fault("answer", f"there is no --{THE_NEW}: name the check by its id")
    if len(set(checks)) < len(checks):
        yield Fault("answer", "a check has one outcome only")
    tests = dict(values.requirement(knowledge, each) for each in draft.each("when"))
    item = knowledge.items.get(draft.one("item"))
    job = {**(item.facts if item else {}), **dict(values.stated(knowledge, each) for each in draft.each("job"))}
    if values.condition(tests).holds({fact: _plain(value) for fact, value in job.items()}) is False:
        yield Fault("when", "the worked case does not meet this: mend the condition, or the case's --item or --job")


def _plain(value: object) -> str | float | bool:
    return value if isinstance(value, bool | str) else float(str(value))
