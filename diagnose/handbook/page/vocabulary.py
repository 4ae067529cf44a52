"""The names that free words are matched by, as the page's engine needs them.

The names of defects are many: each word in them is written as one sign where it is among the most frequent, else as
two, names with ``|`` between and defects with ``~``. Titles and looks stand in the knowledge already.
"""

from collections import Counter
from collections.abc import Iterable, Sequence

from diagnose.handbook.page.compiled import Packed, assigned, words_script
from diagnose.knowledge.model import Knowledge, Refused, WordGroup
from diagnose.reasoning.words.lexicon import _names
from diagnose.reasoning.words.spelling import cut_each
from diagnose.speech.titles import not_ours, refusal

SIGNS = [chr(code) for code in range(33, 127) if chr(code) not in '"<\\|~']


def vocabulary_script(knowledge: Knowledge) -> str:
    """What reads free words, and the vocabulary that it reads them by: a classic script that no text in it can break
    out of."""
    return words_script() + assigned("vocabulary", vocabulary(knowledge))


def vocabulary(knowledge: Knowledge) -> Packed:
    """The groups of words, and names in the order of what they belong to. The same knowledge gives the same."""
    names = [cut_each(_names(knowledge, defect)[1:]) for defect in knowledge.defects.values()]
    words, short = _by_use(word for each in names for name in each for word in name)
    numbers = {word: number for number, word in enumerate(words)}
    return {
        "groups": [_group(group) for name, group in knowledge.words.items() if name not in knowledge.defects],
        "words": " ".join(words),
        "short": short,
        "defects": "~".join(_written(each, numbers, short) for each in names),
        "items": [list(item.said) for item in knowledge.items.values()],
        "refused": [_refused(stuff) for stuff in knowledge.refused.values()],
        "elsewhere": [{"id": each.id, "text": not_ours(each)} for each in knowledge.elsewhere.values()],
        "outcomes": [list(outcome.said) for check in knowledge.checks.values() for outcome in check.outcomes],
    }


def _by_use(said: Iterable[str]) -> tuple[list[str], int]:
    """The words, as many of the most frequent first as can be written with one sign, then the others by name."""
    used = Counter(said)
    words = sorted(used, key=lambda word: (-used[word], word))
    short = len(SIGNS)
    while short > 0 and len(words) - short > (len(SIGNS) - short) * len(SIGNS):
        short -= 1
    if len(words) > len(SIGNS) ** 2:
        raise ValueError(f"{len(words)} words are more than two signs can tell apart")
    return [*words[:short], *sorted(words[short:])], short


def _written(names: Iterable[Sequence[str]], numbers: dict[str, int], short: int) -> str:
    """Names in the order of their words' numbers, which packs best."""
    rows = sorted([numbers[word] for word in name] for name in names)
    return "|".join("".join(_signs(number, short) for number in row) for row in rows if row)


def _signs(number: int, short: int) -> str:
    if number < short:
        return SIGNS[number]
    first, second = divmod(number - short, len(SIGNS))
    return SIGNS[short + first] + SIGNS[second]


def _refused(stuff: Refused) -> Packed:
    return {"id": stuff.id, "said": list(stuff.said), "text": refusal(stuff)}


def _group(group: WordGroup) -> Packed:
    as_written = {"asWritten": _joined(group.as_written)} if group.as_written else {}
    plain = {"plain": True} if group.plain else {}
    return {"id": group.id, "members": _joined(group.members), **as_written, **plain}


def _joined(texts: Iterable[str]) -> str:
    return "|".join(" ".join(words) for words in cut_each(texts))
