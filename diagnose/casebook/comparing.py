"""What a change of rules does: to the rules themselves, to the worked cases, to a shop's own past cases."""

from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from diagnose.casebook.case import Case
from diagnose.casebook.replaying import alike, minutes_to_cure
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Entry, Knowledge, Rule, WorkedCase
from diagnose.knowledge.shop import Shop
from diagnose.pace import Far, paced, part, unheard
from diagnose.problems import Place
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import SAME as NO_CHANGE
from diagnose.reasoning.evidence import Evidence, Tried
from diagnose.reasoning.network import Network, network
from diagnose.reasoning.worked_cases import job_of

ADDED, CHANGED, REMOVED = "added", "changed", "removed"
SOONER, LATER, SAME = "sooner", "later", "same"
NOTICEABLE = 0.02  # of a cause's chance: less is no change to speak of
ENTRIES: Final = ("causes", "checks", "fixes", "items", "cautions")
_NOWHERE = Place("")
_Key = tuple[str, str, frozenset[tuple[str, str]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleChange:
    """A rule that is ``added``, ``changed`` or ``removed``: what it was and what it is, None where it is not there."""

    kind: str
    before: Rule | None
    after: Rule | None

    @property
    def rule(self) -> Rule:
        """The rule as it is, or was."""
        found = self.after or self.before
        assert found is not None
        return found


@dataclass(frozen=True, slots=True)
class EntryChange:
    """Something else that is ``added``, ``changed`` or ``removed``; ``among`` the causes, checks, fixes ..."""

    kind: str
    among: str
    id: str


@dataclass(frozen=True, slots=True)
class Standing:
    """How a worked case's causes stand. ``place``: one more than the number of other causes ahead of the last of them,
    so 1 where they lead; ``chance``: that the last of them is behind what is seen."""

    place: int
    chance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedChange:
    """A worked case before and after, None where the rules cannot come to its cause at all. ``verdict``: ``sooner``
    where the cause stands higher, or as high with a chance noticeably larger; ``later`` the other way about."""

    defect: str
    case: WorkedCase
    before: Standing | None
    after: Standing | None
    verdict: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PastChange:
    """A past case before and after, in minutes to the fix that cured it (see ``minutes_to_cure``); None: not found."""

    case: Case
    before: float | None
    after: float | None
    verdict: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """All that a change of rules does. ``past_left_out``: past cases that no known fix is named to have cured."""

    rules: tuple[RuleChange, ...]
    entries: tuple[EntryChange, ...]
    worked: tuple[WorkedChange, ...]
    past: tuple[PastChange, ...]
    past_left_out: int = 0


def compare(old: Knowledge, new: Knowledge, shop: Shop, cases: Sequence[Case] = (), far: Far = unheard) -> Comparison:
    """What changes from the old knowledge to the new, for the worked cases of both and for the cases given."""
    share = len(cases) / (len(cases) + len(_worked(old) | _worked(new)) or 1)
    past, left_out = past_changes(old, new, shop, cases, part(far, 0.0, share))
    return Comparison(
        rules=tuple(rule_changes(old, new)),
        entries=tuple(entry_changes(old, new)),
        worked=tuple(worked_changes(old, new, part(far, share, 1.0))),
        past=tuple(past),
        past_left_out=left_out,
    )


def rule_changes(old: Knowledge, new: Knowledge) -> Iterator[RuleChange]:
    """The rules that differ in anything but where they stand. A rule is the same one where defect, cause and
    condition are."""
    before, after = _rules(old), _rules(new)
    for key in {**before, **after}:
        was, now = before.get(key), after.get(key)
        if was is None or now is None:
            yield RuleChange(kind=REMOVED if now is None else ADDED, before=was, after=now)
        elif _bare(was) != _bare(now):
            yield RuleChange(kind=CHANGED, before=was, after=now)


def _rules(knowledge: Knowledge) -> dict[_Key, Rule]:
    return {
        (rule.defect, rule.cause, frozenset((test.fact, test.written) for test in rule.condition.tests)): rule
        for defect in knowledge.defects.values()
        for rule in defect.rules
    }


def _bare(rule: Rule) -> Rule:
    condition = replace(rule.condition, tests=tuple(sorted(rule.condition.tests, key=lambda test: test.fact)))
    return replace(rule, condition=condition, place=_NOWHERE, origin="")


def entry_changes(old: Knowledge, new: Knowledge) -> Iterator[EntryChange]:
    """The causes, checks, fixes, items and cautions that differ in anything but where they stand."""
    for among in ENTRIES:
        before: Mapping[str, Entry] = getattr(old, among)
        after: Mapping[str, Entry] = getattr(new, among)
        for key in {**before, **after}:
            if key not in before or key not in after:
                yield EntryChange(ADDED if key in after else REMOVED, among, key)
            elif _nowhere(before[key]) != _nowhere(after[key]):
                yield EntryChange(CHANGED, among, key)


def _nowhere(entry: Entry) -> Entry:
    return replace(entry, place=_NOWHERE, origin="")


def worked_changes(old: Knowledge, new: Knowledge, far: Far = unheard) -> Iterator[WorkedChange]:
    """Every worked case of either, by its defect and story; where both have it, as the new one tells it."""
    for (defect, _), case in paced({**_worked(old), **_worked(new)}.items(), far):
        before, after = standing(old, case), standing(new, case)
        yield WorkedChange(defect=defect, case=case, before=before, after=after, verdict=_of_standings(before, after))


def _worked(knowledge: Knowledge) -> dict[tuple[str, str], WorkedCase]:
    return {(defect.id, case.story): case for defect in knowledge.defects.values() for case in defect.cases}


def standing(knowledge: Knowledge, case: WorkedCase) -> Standing | None:
    """How the causes of a worked case stand; what the knowledge has no words for is left aside. None where it does not
    know one of the causes, or nothing of what was seen."""
    net = network(knowledge, job_of(knowledge, case))
    evidence = _known(net, case)
    if not evidence.seen or not set(case.first) <= set(net.index):
        return None
    behind = believe(net, evidence).behind
    order = sorted(net.causes, key=lambda cause: (-round(behind[net.index[cause]], 9), cause))
    last = max(case.first, key=order.index)
    ahead = [cause for cause in order[: order.index(last)] if cause not in case.first]
    return Standing(len(ahead) + 1, behind[net.index[last]])


def _known(net: Network, case: WorkedCase) -> Evidence:
    answers = {
        check: (outcome, 0)
        for check, outcome in case.answers.items()
        if check in net.checks and outcome in net.checks[check].outcomes
    }
    return Evidence(
        seen=tuple(defect for defect in case.saw if defect in net.defects),
        not_seen=tuple(defect for defect in case.not_seen if defect in net.defects),
        answers=answers,
        tried=tuple(Tried(fix, NO_CHANGE) for fix in case.tried if fix in net.cures),
    )


def _of_standings(before: Standing | None, after: Standing | None) -> str:
    if before is None or after is None:
        return _of_gap(before is None, after is None)
    if before.place != after.place:
        return SOONER if after.place < before.place else LATER
    if abs(after.chance - before.chance) < NOTICEABLE:
        return SAME
    return SOONER if after.chance > before.chance else LATER


def past_changes(
    old: Knowledge, new: Knowledge, shop: Shop, cases: Sequence[Case], far: Far = unheard
) -> tuple[list[PastChange], int]:
    """Each case that a fix known to the old or the new knowledge has cured, and the number of the others. Cases that
    are gone through in the same way are gone through once."""
    before, after = (Consultation(knowledge, shop, Session()) for knowledge in (old, new))
    kept: dict[Hashable, tuple[float | None, float | None]] = {}
    found, left_out = [], 0
    for case in paced(cases, far):
        if case.cured_by not in old.fixes and case.cured_by not in new.fixes:
            left_out += 1
            continue
        key = alike(case)
        if key not in kept:
            kept[key] = minutes_to_cure(before, case), minutes_to_cure(after, case)
        was, now = kept[key]
        found.append(PastChange(case=case, before=was, after=now, verdict=_of_minutes(was, now)))
    return found, left_out


def _of_minutes(before: float | None, after: float | None) -> str:
    if before is None or after is None:
        return _of_gap(before is None, after is None)
    if round(before, 6) == round(after, 6):
        return SAME
    return SOONER if after < before else LATER


def _of_gap(none_before: bool, none_after: bool) -> str:
    if none_before and none_after:
        return SAME
    return SOONER if none_before else LATER
