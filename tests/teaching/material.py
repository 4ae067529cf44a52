"""What the table is made from: names, ways of saying and marked messages, each with what it tells and its weight."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from diagnose.handbook.book import seen as chance_seen
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.ways import stamp, ways
from diagnose.reasoning.network import network
from diagnose.reasoning.words.groups import Groups
from diagnose.reasoning.words.names import own_tokens
from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.spelling import cut
from diagnose.reasoning.words.tokens import Spelt
from diagnose.reasoning.words.units import Reader
from tests.teaching.marked import messages

IDLE = "-"
MARKED, BETWEEN, DENIED = 1.5, 0.7, 0.5  # weights beside a way of saying, which weighs 1
OTHER_LAYER = 0.1  # what tells something else, as idle talk among sights
SIGHT_AS_IDLE = 0.15  # and a sight among answers: its words often tell an answer too
CHANCE_TOLD = 1.0  # what is added to how often a check was answered
OFTEN = 3  # a word used less is no word that a slip may be mended to

Example = tuple[Sequence[Spelt], str, float]


@dataclass(frozen=True, slots=True)
class Material:
    """Examples of both layers; the words that are used often enough to be known; the stamp of the ways of saying; how
    often each defect would be seen."""

    sights: Sequence[Example]
    answers: Sequence[Example]
    words: Sequence[str]
    stamp: str
    common: Mapping[str, float]


def material(knowledge: Knowledge) -> Material:
    """All there is to learn from."""
    said = [*_said(knowledge)]
    used = Counter(word for text, _, _ in said for word in cut(text))
    known = sorted(word for word, times in used.items() if times >= OFTEN and word.isalpha())
    groups = Groups.of(group for name, group in knowledge.words.items() if name not in knowledge.defects)
    reader, speller = Reader(groups), Speller.of(groups.words.union(known))
    examples = [(own_tokens(reader, speller, text), told, weight) for text, told, weight in said]
    common = {**_common(knowledge), **_volunteered(knowledge)}
    return Material([*_sights(examples)], [*_answers(examples)], known, stamp(), common)


def _volunteered(knowledge: Knowledge) -> dict[str, float]:
    """How often each check is answered unasked in the marked messages: of every outcome of it, the same."""
    told = Counter(each.partition(" ")[0] for message in messages() for span in message for each in span.told)
    return {
        f"{check.id} {outcome.id}": (told[check.id] + CHANCE_TOLD) / len(check.outcomes)
        for check in knowledge.checks.values()
        for outcome in check.outcomes
    }


def _common(knowledge: Knowledge) -> dict[str, float]:
    """The chance of each defect by all its causes, in a job of which nothing is known."""
    net = network(knowledge, {}, ())
    return {defect: chance_seen(net, defect) for defect in knowledge.defects}


def is_sight(told: str) -> bool:
    """Whether a class is told among the sights: a defect, or what lies outside the trade."""
    return " " not in told or told.startswith("elsewhere ")


def _said(knowledge: Knowledge) -> Iterator[tuple[str, str, float]]:
    for defect in knowledge.defects.values():
        yield from ((text, defect.id, 1.0) for text in (defect.title, *defect.said))
    for check in knowledge.checks.values():
        for outcome in check.outcomes:
            yield from ((text, f"{check.id} {outcome.id}", 1.0) for text in (outcome.looks, *outcome.said))
    for item in knowledge.items.values():
        yield item.title, IDLE, 0.5
    for telling, lines in ways(knowledge).items():
        kind, _, rest = telling.partition(" ")
        told = {"defect": rest, "answer": rest, "idle": IDLE}.get(kind, telling)
        yield from ((text, told, 1.0) for text in lines)
    for entry in getattr(knowledge, "elsewhere", {}).values():
        yield from ((text, f"elsewhere {entry.id}", 1.0) for text in entry.said)
    for message in messages():
        for span in message:
            plain = [each for each in span.told if each and not each.startswith(("not ", "item "))]
            yield from ((span.words, each, MARKED / len(plain)) for each in plain)
            if not plain:
                yield span.words, IDLE, DENIED if span.told else BETWEEN


def _sights(examples: Sequence[Example]) -> Iterator[Example]:
    for tokens, told, weight in examples:
        own = told == IDLE or is_sight(told)
        yield tokens, told if own else IDLE, weight if own else OTHER_LAYER * weight


def _answers(examples: Sequence[Example]) -> Iterator[Example]:
    for tokens, told, weight in examples:
        sight = told != IDLE and is_sight(told)
        yield tokens, IDLE if sight else told, SIGHT_AS_IDLE * weight if sight else weight
