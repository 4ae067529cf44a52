"""Checks of the names people use for defects and outcomes."""

from collections.abc import Iterable, Iterator
from typing import TypeAlias

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer
from diagnose.problems import Place

_Said: TypeAlias = tuple[str, Place, tuple[str, ...], tuple[str, ...]]  # an id, where it stands, the path to its names
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
    said = [(each.id, each.place, ("said",), each.said) for each in layer.defects.values()]
    return _of_two(layer, said, "", "each name at one defect")


def names_of_two_outcomes(layer: Layer) -> Iterator[Found]:
    """Within a check, a name must lead to one outcome."""
    for check in layer.checks.values():
        said = [(each.id, check.place, ("outcomes", each.id, "said"), each.said) for each in check.outcomes]
        yield from _of_two(layer, said, "the outcome ", "each name at one outcome")


def _of_two(layer: Layer, said: Iterable[_Said], what: str, expected: str) -> Iterator[Found]:
    owners: dict[str, str] = {}
    for own, place, path, names in said:
        for index, name in enumerate(names):
            if (owner := owners.setdefault(_plain(name), own)) != own:
                wrong = f'"{name}" is said of {what}"{owner}" too'
                yield Found(layer.key_within(place, *path, index), wrong, expected)


def _plain(name: str) -> str:
    return " ".join(name.casefold().replace("-", " ").split())
