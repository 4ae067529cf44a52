"""How well whole messages are heard: by four writers who had seen titles only, one half of them locked away.

For each half: what is heard of what was told, and what the causes come to by it. ``handed over`` is the same with
everything that a good listener takes from the message given as it is: no listening can do better by these rules.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from time import process_time

from diagnose.casebook.learning.suggesting import wilson
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.hearing import Heard, hear
from diagnose.dialogue.moves import Answered, DidNotSee, Move, Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.words import Lexicon, lexicon
from tests.bench.rows import Row
from tests.words.told import Message, locked_away, to_tune_by

DEVIATIONS = 1.96  # an interval that holds 95 %
SHARES = (
    ("all defects understood", "understood", "inside"),
    ("nothing wrong heard", "nothing wrong", "inside"),
    ("all defects and no others", "exact", "inside"),
    ("of several defects, all understood", "several understood", "several"),
    ("item named", "item right", "item"),
    ("facts taken as answers", "outcomes heard", "outcomes"),
    ("of the answers taken, right", "outcomes heard", "outcomes taken"),
    ("denials heard", "denied heard", "denied"),
    ("right cause first", "first", "causes"),
    ("right cause in the first three", "three", "causes"),
    ("right cause first, handed over", "first, handed over", "causes"),
    ("right cause in the first three, handed over", "three, handed over", "causes"),
    ("silly next step", "silly", "causes"),
    ("outside the trade, claimed", "claimed", "outside"),
)


def run() -> Iterator[Row]:
    """Both halves; of the half that may be read, the errors by kind as well."""
    knowledge = load(shipped_folder())
    words = lexicon(knowledge)
    for half, messages in (("to tune by", to_tune_by()), ("locked", locked_away())):
        counts = counted(knowledge, words, messages)
        yield from (_share(f"listening, {half}: {name}", counts[part], counts[whole]) for name, part, whole in SHARES)
        yield Row(
            f"listening, {half}: defects wrongly heard", f"{counts['wrong defects']} in {counts['inside']} messages"
        )
        each = f"{counts['microseconds'] / counts['messages'] / 1000:.1f} ms"
        yield Row(f"listening, {half}: processor time for a message", each)


def counted(knowledge: Knowledge, words: Lexicon, messages: Iterable[Message]) -> Counter[str]:
    """What was heard of the messages, added up."""
    counts: Counter[str] = Counter()
    for message in messages:
        started = process_time()
        heard = hear(knowledge, words, message.text)
        counts["microseconds"] += int((process_time() - started) * 1e6)
        counts["messages"] += 1
        if message.outside:
            counts["outside"] += 1
            counts["claimed"] += bool(heard.defects)
        elif message.seen:
            counts.update(_heard(message, heard))
            counts.update(_reasoned(knowledge, message, heard))
    return counts


def _heard(message: Message, heard: Heard) -> Mapping[str, int]:
    told, taken = {*message.seen}, {*heard.defects}
    outcomes = {outcome[:2] for outcome in message.outcomes}
    several = len(told) > 1
    return {
        "inside": 1,
        "understood": told <= taken,
        "nothing wrong": taken <= told,
        "exact": taken == told,
        "wrong defects": len(taken - told),
        "several": several,
        "several understood": several and told <= taken,
        "item": bool(message.item),
        "item right": bool(message.item) and heard.item == message.item,
        "outcomes": len(outcomes),
        "outcomes taken": len(heard.answers),
        "outcomes heard": len(outcomes & {*heard.answers}),
        "denied": len(message.not_seen),
        "denied heard": len({*message.not_seen} & {*heard.not_seen}),
    }


def _reasoned(knowledge: Knowledge, message: Message, heard: Heard) -> Iterator[str]:
    """What the causes come to, by what was heard and by what was meant."""
    if not message.causes:
        return
    yield "causes"
    meant = [(check, outcome) for check, outcome, _ in message.outcomes]
    by_what_was = {
        "": (Pressed(heard.item, dict(heard.facts)), heard.defects, heard.not_seen, heard.answers),
        ", handed over": (Pressed(message.item), message.seen, message.not_seen, meant),
    }
    for name, (pressed, seen, denied, answers) in by_what_was.items():
        if not seen:
            continue
        moves: list[Move] = [pressed, Saw(tuple(seen))]
        moves += [DidNotSee(tuple(denied))] if denied else []
        moves += [Answered(check, outcome) for check, outcome in dict(answers).items()]
        now = Consultation(knowledge, Shop(), Session(tuple(moves)))
        causes = [suspect.cause for suspect in now.suspects]
        if causes[:1] == [message.causes[0]]:
            yield f"first{name}"
        if message.causes[0] in causes[:3]:
            yield f"three{name}"
        if not name and now.advice.id in message.silly:
            yield "silly"


def _share(name: str, part: int, whole: int) -> Row:
    low, high = wilson(part, whole, DEVIATIONS)
    return Row(name, f"{part} of {whole}: {part / max(1, whole):.0%} ({low:.0%} to {high:.0%})")
