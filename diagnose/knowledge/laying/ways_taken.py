"""The ways of saying in folders laid over one another, and what of them belongs to the knowledge itself."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import accumulate

from diagnose.knowledge.folders import SourceFile
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.limits import MOST_WAYS, SPLIT
from diagnose.knowledge.model import WordGroup
from diagnose.knowledge.ways import WORDS, Block, blocks, fits
from diagnose.problems import Collector


def take_ways(whole: Layer, folders: Sequence[tuple[Sequence[SourceFile], str]], found: Collector) -> None:
    """Put the ways of some folders, each with whose it is, into the layer that they are laid over. Of what the last of
    them took out of use, the others say nothing any more. A line that something is wrong with is a problem, and left
    out."""
    for number, (files, origin) in enumerate(folders, 1):
        read = _within_limits(list(blocks(files, found, origin)), found)
        whole.ways.extend(block for block in read if number == len(folders) or fits(whole, block))


def heard(ways: Iterable[Block]) -> Mapping[str, tuple[str, ...]]:
    """The sentences heard of each defect, each once."""
    return _lines(ways, "")


def word_groups(ways: Iterable[Block]) -> Mapping[str, WordGroup]:
    """The words that mean a defect wherever they stand, as a group that carries its id."""
    first = {block.id: block for block in reversed([*ways]) if block.kind == "defect" and block.heading == WORDS}
    return {
        name: WordGroup(
            id=name, note="Said of the defect", members=members, place=first[name].place, origin=first[name].origin
        )
        for name, members in _lines(ways, WORDS).items()
    }


def _lines(ways: Iterable[Block], heading: str) -> dict[str, tuple[str, ...]]:
    lines: dict[str, dict[str, None]] = {}
    for block in ways:
        if block.kind == "defect" and block.heading == heading and block.lines:
            lines.setdefault(block.id, {}).update((text, None) for _, text in block.lines)
    return {name: tuple(each) for name, each in lines.items()}


def _within_limits(read: list[Block], found: Collector) -> list[Block]:
    """The blocks up to the one at which a folder holds more ways than it may."""
    words = accumulate(sum(len(text.split()) for _, text in block.lines) for block in read)
    for number, many in enumerate(words):
        if many > MOST_WAYS:
            wrong = f"more than {MOST_WAYS:,} words in the ways of saying in one folder"
            found.add(read[number].place, "too-many-entries", wrong, hint=SPLIT)
            return read[:number]
    return read
