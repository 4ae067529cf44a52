"""How well a person's own words are understood: sentences written apart from the names, and never tuned on."""

import random
import string
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from time import perf_counter

import yaml

from diagnose.knowledge.loading import load, shipped_folder
from diagnose.reasoning.words import Lexicon, lexicon, rank_defects, understand
from diagnose.reasoning.words.lexicon import build
from tests.bench.rows import Row

SENTENCES = Path(__file__).parent.parent / "words"
TOP_ONE, TOP_THREE, QUERY_MS, READY_MS = 0.90, 0.98, 10.0, 30.0
ERROR_SEEDS = (1, 2, 3)
Told = tuple[str, str]  # a defect, and how somebody put it


def told(name: str) -> list[Told]:
    """The sentences of a file with the defect each tells of."""
    content = yaml.safe_load((SENTENCES / name).read_text(encoding="utf-8"))
    return [(defect, sentence) for defect, sentences in content.items() for sentence in sentences]


def mixed() -> list[tuple[str, set[str]]]:
    """The sentences that tell of several defects at once, with those defects."""
    content = yaml.safe_load((SENTENCES / "mixed.yaml").read_text(encoding="utf-8"))
    return [(entry["text"], set(entry["defects"])) for entry in content]


def mistyped(text: str, dice: random.Random) -> str:
    """The text with one typing error: a letter left out, put in, swapped with its neighbour or replaced."""
    place = dice.choice([i for i, sign in enumerate(text) if sign.isalpha()])
    before, letter, after = text[:place], text[place], text[place + 1 :]
    other = dice.choice(string.ascii_lowercase)
    return dice.choice(
        (
            before + after,
            before + other + letter + after,
            before + after[:1] + letter + after[1:],
            before + other + after,
        )
    )


def places(words: Lexicon, sentences: Iterable[Told]) -> list[int]:
    """At which place, from 0, the right defect comes for each sentence (its number of defects where nowhere)."""
    found = []
    for defect, sentence in sentences:
        ids = [match.id for match in rank_defects(words, sentence)]
        found.append(ids.index(defect) if defect in ids else len(words.knowledge.defects))
    return found


def run() -> list[Row]:
    """Shares of the held-out sentences understood, as written and mistyped, and the time it takes."""
    knowledge = load(shipped_folder())
    built = _milliseconds(lambda: build(knowledge), 3)
    words = lexicon(knowledge)
    ready = _milliseconds(lambda: lexicon(knowledge), 5)
    plain = told("paraphrases-heldout.yaml")
    dice = [random.Random(seed) for seed in ERROR_SEEDS]
    wrong = [(defect, mistyped(sentence, each)) for each in dice for defect, sentence in plain]
    both = mixed()
    exact = sum({match.id for match in understand(words, text).defects} == meant for text, meant in both)
    named = sum(
        len({match.id for match in understand(words, text).defects} & meant) / len(meant) for text, meant in both
    )
    query = _milliseconds(lambda: [understand(words, sentence) for _, sentence in plain], 1) / len(plain)
    idle = yaml.safe_load((SENTENCES / "idle.yaml").read_text(encoding="utf-8"))
    named_idly = sum(bool(understand(words, text).defects) for text in idle)
    return [
        *_shares("words, as written", places(words, plain)),
        *_shares("words, one typing error each", places(words, wrong)),
        Row("words, several defects at once: all and no others", f"{exact / len(both):.1%}"),
        Row("words, several defects at once: share of them found", f"{named / len(both):.1%}"),
        Row("words, time to understand a sentence", f"{query:.1f} ms", f"{QUERY_MS:.0f} ms", query <= QUERY_MS),
        Row("words, idle talk that names a defect", f"{named_idly / len(idle):.1%}"),
        Row("words, time to have the lexicon ready, kept", f"{ready:.0f} ms", f"{READY_MS:.0f} ms", ready <= READY_MS),
        Row("words, time to build the lexicon anew", f"{built:.0f} ms"),
    ]


def _shares(name: str, found: Sequence[int]) -> list[Row]:
    first = sum(place == 0 for place in found) / len(found)
    third = sum(place < 3 for place in found) / len(found)
    return [
        Row(f"{name}: right defect first", f"{first:.1%}", f"{TOP_ONE:.0%}", first >= TOP_ONE),
        Row(f"{name}: right defect in the first three", f"{third:.1%}", f"{TOP_THREE:.0%}", third >= TOP_THREE),
    ]


def _milliseconds(work: Callable[[], object], times: int) -> float:
    started = perf_counter()
    for _ in range(times):
        work()
    return (perf_counter() - started) * 1000.0 / times
