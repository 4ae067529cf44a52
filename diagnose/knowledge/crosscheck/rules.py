"""Checks of rule files: their names, and rules that say the same."""

import itertools
from collections.abc import Iterator
from pathlib import PurePath

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.overlap import may_overlap


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
    """Two rules of a defect with one cause, where both can hold at once, would be counted twice."""
    for defect in layer.defects.values():
        for first, second in itertools.combinations(defect.rules, 2):
            if first.cause == second.cause and may_overlap(first.condition, second.condition):
                yield Found(
                    second.place,
                    f'a second rule for "{second.cause}" that can hold at once with the first',
                    hint=f"the first stands at {first.place}; join them or keep them apart by `if`",
                )
