"""What is already known and sounds like what somebody is about to write: rules, causes, fixes, checks."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from diagnose.knowledge.model import Knowledge, Rule
from diagnose.reasoning.words.index import SAID, Index
from diagnose.reasoning.words.lexicon import Lexicon
from diagnose.reasoning.words.scoring import evidence
from diagnose.reasoning.words.spelling import cut_each

LEAST = 2.0  # what must speak for a likeness
SAME_DEFECT, SAME_CAUSE = 1.6, 8.0  # a factor, and an addition
LESS = 0.4  # what a longer text counts for beside a title


@dataclass(frozen=True, slots=True)
class Near:
    """A known rule, and how strongly it is like the new one."""

    rule: Rule
    score: float


def alike(lexicon: Lexicon, words: str, texts: Mapping[str, Iterable[tuple[str, float]]], most: int = 5) -> list[str]:
    """The ids whose texts, each with its weight, are most like some words, the likest first."""
    scored = _scores(lexicon, words, texts)
    return sorted(scored, key=lambda key: (-scored[key], key))[:most]


def causes_like(knowledge: Knowledge, lexicon: Lexicon, words: str, most: int = 5) -> list[str]:
    """Ids of known causes that some words may mean."""
    texts = {c.id: ((c.title, SAID), (c.about, LESS)) for c in knowledge.causes.values()}
    return alike(lexicon, words, texts, most)


def fixes_like(knowledge: Knowledge, lexicon: Lexicon, words: str, most: int = 5) -> list[str]:
    """Ids of known fixes that some words may mean."""
    texts = {f.id: ((f.title, SAID), (" ".join(f.steps), LESS)) for f in knowledge.fixes.values()}
    return alike(lexicon, words, texts, most)


def checks_like(knowledge: Knowledge, lexicon: Lexicon, words: str, most: int = 5) -> list[str]:
    """Ids of known checks that some words may mean."""
    texts = {c.id: ((c.title, SAID), (f"{c.asks} {' '.join(c.how)}", LESS)) for c in knowledge.checks.values()}
    return alike(lexicon, words, texts, most)


def nearest_rules(
    knowledge: Knowledge, lexicon: Lexicon, defect: str, cause: str, words: str, most: int = 5
) -> list[Near]:
    """The known rules nearest to a new one: about the same defect or cause, or in similar words; one of each cause."""
    rules = {f"{number}": rule for number, rule in enumerate(_rules(knowledge))}
    texts = {
        key: ((knowledge.causes[rule.cause].title, SAID), (rule.why, LESS))
        for key, rule in rules.items()
        if rule.cause in knowledge.causes
    }
    scores = _scores(lexicon, words, texts) if words else {}
    for key, rule in rules.items():
        if rule.cause == cause:
            scores[key] = scores.get(key, 0.0) + SAME_CAUSE
        if rule.defect == defect and key in scores:
            scores[key] *= SAME_DEFECT
    ranked = sorted(scores, key=lambda key: (-scores[key], rules[key].defect, rules[key].cause))
    first = {rules[key].cause: key for key in reversed(ranked)}
    return [Near(rules[key], round(scores[key], 3)) for key in ranked if first[rules[key].cause] == key][:most]


def _rules(knowledge: Knowledge) -> list[Rule]:
    return [rule for defect in knowledge.defects.values() for rule in defect.rules]


def _scores(lexicon: Lexicon, words: str, texts: Mapping[str, Iterable[tuple[str, float]]]) -> dict[str, float]:
    owners = list(texts)
    named = [(number, weight, text) for number, key in enumerate(owners) for text, weight in texts[key]]
    cuts: Sequence[list[str]] = cut_each(text for _, _, text in named)
    index = Index.of(
        owners,
        [(owner, weight, lexicon.reader.name(cut)) for (owner, weight, _), cut in zip(named, cuts, strict=True)],
    )
    found = evidence(index, lexicon.units(words)).scores()
    return {owners[number]: score for number, score in found.items() if score >= LEAST}
