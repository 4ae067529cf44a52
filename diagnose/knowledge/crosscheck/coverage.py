"""Entries that nothing leads to, or that lead nowhere."""

from collections.abc import Iterator

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.model import SHIPPED


def causes_without_a_rule(layer: Layer) -> Iterator[Found]:
    """Nobody will ever be led to such a cause."""
    pointed_at = {rule.cause for defect in layer.defects.values() for rule in defect.rules}
    for cause in layer.causes.values():
        if cause.id not in pointed_at:
            yield Found(
                cause.place,
                f'no rule points to the cause "{cause.id}"',
                hint="add a rule to the file of a defect it brings on",
            )


def causes_without_a_check(layer: Layer) -> Iterator[Found]:
    """Such a cause cannot be told from others. A shop may know one of its own by its cure alone."""
    told = {cause for check in layer.checks.values() for outcome in check.outcomes for cause in outcome.shows}
    for cause in layer.causes.values():
        if cause.id not in told and cause.origin == SHIPPED:
            yield Found(
                cause.place,
                f'no check tells the cause "{cause.id}" from others',
                hint="name it under `shows` of an outcome",
            )


def causes_without_a_fix(layer: Layer) -> Iterator[Found]:
    """Such a cause can be found but not put right."""
    cured = {cause for fix in layer.fixes.values() for cause in fix.cures}
    for cause in layer.causes.values():
        if cause.id not in cured:
            yield Found(cause.place, f'no fix cures the cause "{cause.id}"', hint="name it under `cures` of a fix")


def defects_without_rules(layer: Layer) -> Iterator[Found]:
    """Such a defect can be seen but not explained."""
    for defect in layer.defects.values():
        if not defect.rules:
            yield Found(
                layer.key_within(defect.place, "rules"),
                f'the defect "{defect.id}" has no rules',
                hint="add a rule with a cause that brings it on",
            )


def fixes_that_never_cure(layer: Layer) -> Iterator[Found]:
    """A fix for a cause that it never puts right would be tried for ever. Numbers are held above 0 by the schema; a
    word of the scale, or what a shop adds, comes to light only here."""
    for fix in layer.fixes.values():
        for cause, chance in fix.cures.items():
            if chance.value <= 0.0 and (not chance.word or chance.word in layer.scale.words):
                said = f'"{chance.word}", which is 0' if chance.word else "0"
                yield Found(
                    layer.value_within(fix.place, "cures", cause),
                    f'"{fix.id}" cures "{cause}" with a chance of {said}',
                    "a chance above 0",
                    "leave the cause out, or give the word another number in kb/scales.yaml",
                )
