"""Ways of saying: how people put each thing that can be told, a line for each, in plain files below ``kb/ways/``; and
what words entail.

``defects/ID.txt`` and ``causes/ID.txt`` hold the ways of one defect or cause, ``checks/ID.txt`` those of a check's
outcomes, each under a heading ``= OUTCOME``, ``idle.txt`` what tells nothing. A line that begins with ``#`` is a
comment. A shop's own files lie in the same places of its folder, and their lines are added.

They are no part of the compiled knowledge: whoever makes a listener ready asks for them with ``ways``. Only what tells
of a defect is read with the knowledge (``Knowledge.heard``), and of that not what stands under ``= further``; what
stands under ``= words`` means the defect wherever it stands in a text (``Knowledge.words``).
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import Final

from diagnose.characters import named, unsafe
from diagnose.files.reading import decoded
from diagnose.knowledge.entry import SHIPPED
from diagnose.knowledge.folders import WAYS, SourceFile, digest, read_ways, shipped_folder
from diagnose.knowledge.model import Defect, Entries, Outcome
from diagnose.problems import Collector, Place, PressloreError

HEADING, COMMENT = "=", "#"
LONGEST, MOST_WORDS = 200, 40
WORDS, FURTHER = "words", "further"
IDLE: Final = "idle"
_BLANKS: Final = re.compile("[ \\r]+")
_KINDS: Final = {"defects": "defect", "checks": "answer", "causes": "cause"}
_PLACES: Final = f"{WAYS}defects/ID.txt, checks/ID.txt or causes/ID.txt, or {WAYS}idle.txt"


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """What stands under one heading of a file, or before the first. ``kind``: ``defect``, ``answer``, ``cause`` or
    ``idle``; ``id``: of the defect, check or cause; ``heading``: the outcome, or the part of a defect's ways. ``place``
    is the heading's, or the file's; ``lines`` are the ways, each with the number of its line."""

    kind: str
    id: str = ""
    heading: str = ""
    place: Place
    origin: str = SHIPPED
    lines: tuple[tuple[int, str], ...] = ()

    @property
    def telling(self) -> str:
        """What is told by these ways: ``defect ghosting``, ``answer CHECK OUTCOME``, ``cause ID`` or ``idle``."""
        return answer(self.id, self.heading) if self.kind == "answer" else f"{self.kind} {self.id}".strip()

    def at(self, line: int) -> Place:
        """Where a line of it stands."""
        return Place(self.place.file, line, 1)


def seen(defect: str) -> str:
    """The telling of a defect: ``defect ghosting``."""
    return f"defect {defect}"


def answer(check: str, outcome: str) -> str:
    """The telling of an outcome of a check: ``answer which-pieces first-ones``."""
    return f"answer {check} {outcome}"


def ways(knowledge: Entries, *folders: Path) -> Mapping[str, tuple[str, ...]]:
    """By what is told, in the form of ``Block.telling``, every way of saying it, each once and in order.

    ``folders``: what ships, then a shop's laid over it; without any, what ships. What is said of things that are not
    known here (a shop may have retired them), and lines that ``rules check`` would not let pass, are left out.
    """
    told: dict[str, dict[str, None]] = {}
    for folder in read_ways(folders or (shipped_folder(),), Collector()):
        for block in blocks(folder.files, Collector(), folder.origin):
            if fits(knowledge, block):
                told.setdefault(block.telling, {}).update((text, None) for _, text in block.lines)
    return {telling: tuple(lines) for telling, lines in told.items()}


def stamp(*folders: Path) -> str:
    """A digest of all that ``ways`` would read: what was made of other ways of saying bears another one."""
    return digest(read_ways(folders or (shipped_folder(),), Collector()), all_ways=True)


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


def fits(known: Entries, block: Block) -> bool:
    """Whether what a block tells of is known."""
    if block.kind == "answer":
        check = known.checks.get(block.id)
        return check is not None and any(outcome.id == block.heading for outcome in check.outcomes)
    return block.id in {"defect": known.defects, "cause": known.causes}.get(block.kind, {""})


def blocks(files: Iterable[SourceFile], found: Collector, origin: str = SHIPPED) -> Iterator[Block]:
    """The blocks of some files, without the lines that cannot be used: each of those is a problem."""
    for file in files:
        kind, own = _subject(file.name)
        if kind:
            yield from _blocks(file, kind, own, origin, found)
        else:
            found.add(
                Place(file.shown), "misplaced-ways", "ways of saying of nothing that can be told", expected=_PLACES
            )


def _also(one: Defect | Outcome) -> Iterator[str]:
    yield from map(seen, one.also_saw)
    yield from (answer(check, outcome) for check, outcome in one.also_answers.items())


def _subject(name: str) -> tuple[str, str]:
    """The kind and the id that a file tells of, by its name; no kind where that tells of nothing."""
    within = name.removeprefix(WAYS).removesuffix(".txt").split("/")
    if within == [IDLE]:
        return IDLE, ""
    return (_KINDS.get(within[0], ""), within[1]) if len(within) == 2 else ("", "")


def _blocks(file: SourceFile, kind: str, own: str, origin: str, found: Collector) -> Iterator[Block]:
    heading, place, held = "", Place(file.shown), list[tuple[int, str]]()
    for number, line in _lines(file, found):
        if not line.startswith(HEADING) and (heading or kind != "answer") and _is_sound(line):
            held.append((number, line))
            continue
        at = Place(file.shown, number, 1)
        if line.startswith(HEADING):
            yield Block(kind=kind, id=own, heading=heading, place=place, origin=origin, lines=tuple(held))
            heading, place, held = line.removeprefix(HEADING).strip(), at, []
            if kind != "answer" and (kind != "defect" or heading not in (WORDS, FURTHER)):
                found.add(
                    at, "misplaced-heading", f'the heading "{line}"', expected="headings in files of checks alone"
                )
        elif kind == "answer" and not heading:
            found.add(at, "way-without-outcome", f'"{line}" tells no outcome', expected=f"{HEADING} OUTCOME above it")
        else:
            _unsound(line, at, found)
    yield Block(kind=kind, id=own, heading=heading, place=place, origin=origin, lines=tuple(held))


def _lines(file: SourceFile, found: Collector) -> Iterator[tuple[int, str]]:
    """The lines that are neither blank nor comments, by number."""
    try:
        text = decoded(file.data, file.shown)
    except PressloreError as error:
        found.take(error.problems)
        return
    for number, line in enumerate(text.split("\n"), 1):
        if (bare := _BLANKS.sub(" ", line).strip()) and not bare.startswith(COMMENT):
            yield number, bare


def _is_sound(line: str) -> bool:
    tells = line[0].isalnum() or any(map(str.isalnum, line))
    short = len(line) <= LONGEST and line.count(" ") < MOST_WORDS
    return tells and short and not any(unsafe(line))


def _unsound(line: str, at: Place, found: Collector) -> None:
    """Say what is wrong with a line that is not sound."""
    for column, sign in islice(unsafe(line), 1):
        acting = f"a character that acts on a terminal ({named(sign)})"
        found.add(Place(at.file, at.line, column + 1), "control-character", acting, hint="delete it")
        return
    if not any(map(str.isalnum, line)):
        found.add(at, "empty-way", f'"{line}" says nothing', expected="words, or no line")
    elif len(line) > LONGEST:
        found.add(at, "long-way", f"a line of {len(line)} characters", expected=f"at most {LONGEST}")
    else:
        found.add(at, "long-way", f"a line of {line.count(' ') + 1} words", expected=f"at most {MOST_WORDS}")
