"""Checks of the names people use for defects and outcomes."""

from collections.abc import Iterator

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer

FEWEST_NAMES = 6


def too_few_names(layer: Layer) -> Iterator[Found]:
    """A defect that people cannot name is never found."""
    for defect in layer.defects.values():
        different = {_plain(name) for name in defect.said}
        if len(different) < FEWEST_NAMES:
            yield Found(
                layer.key_within(defect.place, "said"),
                f'{len(different)} different names for "{defect.id}"',
                f"at least {FEWEST_NAMES}",
                "add slang, misspellings, plurals, short phrases",
            )


def names_of_two_defects(layer: Layer) -> Iterator[Found]:
    """A name must lead to one defect."""
    owners: dict[str, str] = {}
    for defect in layer.defects.values():
        for index, name in enumerate(defect.said):
            owner = owners.setdefault(_plain(name), defect.id)
            if owner != defect.id:
                yield Found(
                    layer.key_within(defect.place, "said", index),
                    f'"{name}" is said of "{owner}" too',
                    "each name at one defect",
                )


def names_of_two_outcomes(layer: Layer) -> Iterator[Found]:
    """Within a check, a name must lead to one outcome."""
    for check in layer.checks.values():
        owners: dict[str, str] = {}
        for outcome in check.outcomes:
            for index, name in enumerate(outcome.said):
                owner = owners.setdefault(_plain(name), outcome.id)
                if owner != outcome.id:
                    yield Found(
                        layer.key_within(check.place, "outcomes", outcome.id, "said", index),
                        f'"{name}" is said of the outcome "{owner}" too',
                        "each name at one outcome",
                    )


def _plain(name: str) -> str:
    return " ".join(name.casefold().replace("-", " ").split())
