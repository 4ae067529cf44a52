"""What words entail: whoever tells one thing has told others as well (``also`` in a file)."""

from collections.abc import Iterable, Iterator

from diagnose.knowledge.model import Defect, Entries, Outcome
from diagnose.knowledge.ways import answer, seen


def entailed(known: Entries, tellings: Iterable[str]) -> tuple[str, ...]:
    """The tellings, in the form of ``ways.Block.telling``, and after them all that has been told by them as well, or by
    those in their turn, each once."""
    found = dict.fromkeys(tellings)
    waiting = list(found)
    for telling in waiting:
        new = [each for each in entails(known, telling) if each not in found]
        found.update(dict.fromkeys(new))
        waiting += new
    return tuple(found)


def entails(known: Entries, telling: str) -> Iterator[str]:
    """What a telling entails outright; nothing for one that is not known."""
    kind, _, rest = telling.partition(" ")
    if kind == "defect" and rest in known.defects:
        yield from _also(known.defects[rest])
    elif kind == "answer":
        check, _, outcome = rest.partition(" ")
        for each in known.checks[check].outcomes if check in known.checks else ():
            if each.id == outcome:
                yield from _also(each)


def _also(one: Defect | Outcome) -> Iterator[str]:
    yield from map(seen, one.also_saw)
    yield from (answer(check, outcome) for check, outcome in one.also_answers.items())
