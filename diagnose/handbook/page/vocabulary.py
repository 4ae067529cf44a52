"""The names that free words are matched by, as the page's engine needs them.

Of a name of a defect only the words that count are kept: whatever neither carries a meaning nor belongs to a fixed
phrase is dropped, where the name reads the same without it. Names and members of groups are joined by ``|``. Titles
and looks stand in the knowledge already.
"""

from collections.abc import Iterable, Iterator

from diagnose.handbook.page.compiled import Packed, assigned
from diagnose.knowledge.model import Knowledge, WordGroup
from diagnose.reasoning.words.groups import SKIPPED
from diagnose.reasoning.words.lexicon import _names, lexicon
from diagnose.reasoning.words.spelling import cut_each
from diagnose.reasoning.words.units import Reader


def vocabulary_script(knowledge: Knowledge) -> str:
    """The vocabulary as a classic script, which no text in it can break out of."""
    return assigned("vocabulary", vocabulary(knowledge))


def vocabulary(knowledge: Knowledge) -> Packed:
    """The groups of words, and names in the order of what they belong to. The same knowledge gives the same."""
    reader = lexicon(knowledge).reader
    return {
        "groups": [_group(group) for name, group in knowledge.words.items() if name not in knowledge.defects],
        "defects": ["|".join(sorted(_reduced(_names(knowledge, d)[1:], reader))) for d in knowledge.defects.values()],
        "items": [list(item.said) for item in knowledge.items.values()],
        "outcomes": [list(outcome.said) for check in knowledge.checks.values() for outcome in check.outcomes],
    }


def _group(group: WordGroup) -> Packed:
    as_written = {"asWritten": _joined(group.as_written)} if group.as_written else {}
    plain = {"plain": True} if group.plain else {}
    return {"id": group.id, "members": _joined(group.members), **as_written, **plain}


def _joined(texts: Iterable[str]) -> str:
    return "|".join(" ".join(words) for words in cut_each(texts))


def _reduced(names: Iterable[str], reader: Reader) -> Iterator[str]:
    for words in cut_each(names):
        telling = [word for word in words if word not in SKIPPED and word not in reader.groups.plain]
        same = reader.name(telling) == reader.name(words)
        yield " ".join(telling if same else (word for word in words if word not in SKIPPED))
