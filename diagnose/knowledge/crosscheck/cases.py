"""Checks of worked cases. Whether they hold is found out where the reasoning is."""

from collections.abc import Iterator

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer


def first_and_never(layer: Layer) -> Iterator[Found]:
    """A cause cannot lead and never come up in one and the same case."""
    for defect in layer.defects.values():
        for case in defect.cases:
            for cause in sorted({*case.first} & {*case.never}):
                yield Found(
                    layer.key_within(case.place, "never"),
                    f'"{cause}" stands under first and never',
                    "each cause under one of them",
                )


def seen_and_not_seen(layer: Layer) -> Iterator[Found]:
    """A defect cannot be seen and not seen on one and the same piece."""
    for defect in layer.defects.values():
        for case in defect.cases:
            for seen in sorted({*case.saw} & {*case.not_seen}):
                yield Found(
                    layer.key_within(case.place, "not-seen"),
                    f'"{seen}" stands under saw and not-seen',
                    "each defect under one of them",
                )
