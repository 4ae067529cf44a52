"""Checks of rule files: their names, rules that say the same, worked cases. Whether these hold is found out where the
reasoning is."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from pathlib import PurePath

from diagnose.knowledge.conditions import may_overlap
from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.limits import RULES_FOR_ONE_CAUSE
from diagnose.knowledge.model import Rule


def misnamed_files(layer: Layer) -> Iterator[Found]:
    """A defect's file is called by its id, so that a person finds it."""
    for defect in layer.defects.values():
        name = PurePath(defect.place.file).name
        if name != f"{defect.id}.yaml":
            yield Found(
                defect.place,
                f'the defect "{defect.id}" stands in {name}',
                f"{defect.id}.yaml",
                "rename the file or mend the id",
            )


def rules_that_say_the_same(layer: Layer) -> Iterator[Found]:
    """Two rules of a defect with one cause, where both can hold at once, would be counted twice. Each rule is told of
    once, beside the first that it meets."""
    for defect in layer.defects.values():
        for first, second in _same(defect.rules):
            yield Found(
                second.place,
                f'a second rule for "{second.cause}" that can hold at once with the first',
                hint=f"the first stands at {first.place}; join them or keep them apart by `if`",
            )


def _same(rules: Iterable[Rule]) -> Iterator[tuple[Rule, Rule]]:
    """Each rule that an earlier one for its cause overlaps, after that one."""
    apart: dict[str, list[Rule]] = defaultdict(list)
    for rule in rules:
        others = apart[rule.cause]
        met = next((other for other in others if may_overlap(other.condition, rule.condition)), None)
        if met:
            yield met, rule
        if len(others) < RULES_FOR_ONE_CAUSE:
            others.append(rule)


def too_many_rules_for_one_cause(layer: Layer) -> Iterator[Found]:
    """Of so many, nobody could say any more whether they keep apart."""
    for defect in layer.defects.values():
        count: Counter[str] = Counter()
        for rule in defect.rules:
            count[rule.cause] += 1
            if count[rule.cause] == RULES_FOR_ONE_CAUSE + 1:
                yield Found(
                    rule.place,
                    f'more than {RULES_FOR_ONE_CAUSE} rules from "{rule.cause}" to "{defect.id}"',
                    f"at most {RULES_FOR_ONE_CAUSE}",
                    "join some of them",
                )


def first_and_never(layer: Layer) -> Iterator[Found]:
    """A cause cannot lead and never come up in one and the same case."""
    return _under_both(layer, "first", "never", "each cause under one of them")


def seen_and_not_seen(layer: Layer) -> Iterator[Found]:
    """A defect cannot be seen and not seen on one and the same piece."""
    return _under_both(layer, "saw", "not-seen", "each defect under one of them")


def _under_both(layer: Layer, one: str, other: str, expected: str) -> Iterator[Found]:
    for case in layer.cases():
        both = [{*getattr(case, key.replace("-", "_"))} for key in (one, other)]
        for named in sorted(both[0] & both[1]):
            yield Found(layer.key_within(case.place, other), f'"{named}" stands under {one} and {other}', expected)
