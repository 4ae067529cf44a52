"""Checks of the ways of saying: each of something that is known, and of one thing only."""

import re
from collections.abc import Iterator

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.model import KINDS
from diagnose.knowledge.near import nearest
from diagnose.problems import Place

_NO_WORDS = re.compile(r"[^\w\s]|_")
_KIND_OF = {"defect": "defects", "answer": "checks", "cause": "causes"}


def of_nothing_known(layer: Layer) -> Iterator[Found]:
    """Files that are called after no defect, check or cause."""
    known, named = {kind: layer.ids(kind) for kind in _KIND_OF.values()}, set[str]()
    for block in layer.ways:
        kind, file = _KIND_OF.get(block.kind), block.place.file
        if kind and block.id not in known[kind] and file not in named:
            named.add(file)
            wrong = f'"{block.id}" is not among the {KINDS[kind].called}'
            yield Found(Place(file), wrong, "a file called after one of them", nearest(block.id, known[kind]))


def of_no_outcome(layer: Layer) -> Iterator[Found]:
    """Headings that are no outcome of the check that the file is called after."""
    for block in layer.ways:
        if block.kind == "answer" and block.heading and block.id in layer.checks:
            known = [outcome.id for outcome in layer.checks[block.id].outcomes]
            if block.heading not in known:
                wrong = f'"{block.id}" has no outcome "{block.heading}"'
                yield Found(block.place, wrong, f"one of {', '.join(known)}", nearest(block.heading, known))


def of_two_things(layer: Layer) -> Iterator[Found]:
    """Whoever says it can mean only one of them; nor may it be the name of another defect."""
    owners = {
        _plain(name): (f"defect {each.id}", layer.value_within(each.place, "said", index))
        for each in layer.defects.values()
        for index, name in enumerate(each.said)
    }
    for block in layer.ways:
        for line, text in block.lines:
            owner, place = owners.setdefault(_plain(text), (block.telling, block.at(line)))
            if owner != block.telling:
                hint = f"the other stands at {place}; leave out one, or both"
                yield Found(
                    block.at(line), f'"{text}" is a way of saying "{owner}" too', "each line of one thing", hint
                )


def _plain(text: str) -> str:
    """The words of a line, whatever their case and the signs between them; apostrophes join."""
    return " ".join(_NO_WORDS.sub(" ", text.casefold().replace("'", "").replace("’", "")).split())
