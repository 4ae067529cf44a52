"""What free words are matched by, as the page's engine needs it: names in the order of what they belong to, groups of
words that mean the same, and the table of what each word speaks for, as it ships.

Titles and looks stand in the knowledge already.
"""

import json
from collections.abc import Iterable

from diagnose.handbook.page.compiled import Packed, assigned, words_script
from diagnose.knowledge.model import Knowledge, Refused, WordGroup
from diagnose.reasoning.words.spelling import cut_each
from diagnose.reasoning.words.table import FILE
from diagnose.speech.titles import not_ours, refusal

TABLE = ("features", "rows", "words", "sights", "answers", "step")


def vocabulary_script(knowledge: Knowledge) -> str:
    """What reads free words, and the vocabulary that it reads them by: a classic script that no text in it can break
    out of."""
    return words_script() + assigned("vocabulary", vocabulary(knowledge))


def vocabulary(knowledge: Knowledge) -> Packed:
    """Plain JSON values. The same knowledge gives the same."""
    return {
        "groups": [_group(group) for group in knowledge.words.values()],
        "defects": [list(defect.said) for defect in knowledge.defects.values()],
        "items": [list(item.said) for item in knowledge.items.values()],
        "refused": [_refused(stuff) for stuff in knowledge.refused.values()],
        "elsewhere": [{"id": each.id, "text": not_ours(each)} for each in knowledge.elsewhere.values()],
        "outcomes": [list(outcome.said) for check in knowledge.checks.values() for outcome in check.outcomes],
        "heard": _heard(knowledge),
        "table": _table(),
    }


def _heard(knowledge: Knowledge) -> Packed:
    """What is heard of what the engine's lexicon asks for, by what is told."""
    asked = [
        *(f"defect {name}" for name in knowledge.defects),
        *(f"answer {check.id} {outcome.id}" for check in knowledge.checks.values() for outcome in check.outcomes),
        *(f"cause {name}" for name in knowledge.causes),
    ]
    return {telling: list(knowledge.heard[telling]) for telling in asked if telling in knowledge.heard}


def _table() -> Packed:
    plain = json.loads(FILE.read_text(encoding="utf-8"))
    return {name: plain[name] for name in TABLE}


def _refused(stuff: Refused) -> Packed:
    return {"id": stuff.id, "said": list(stuff.said), "text": refusal(stuff)}


def _group(group: WordGroup) -> Packed:
    as_written = {"asWritten": _joined(group.as_written)} if group.as_written else {}
    plain = {"plain": True} if group.plain else {}
    return {"id": group.id, "members": _joined(group.members), **as_written, **plain}


def _joined(texts: Iterable[str]) -> str:
    return "|".join(" ".join(words) for words in cut_each(texts))
