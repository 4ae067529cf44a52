"""Which cautions the words of a step call for: data of the cautions themselves, looked for in what somebody wrote.

What ships names its cautions one by one. What a shop writes, and what comes in a bundle, shows those that its words
call for as well, whether it names them or not.
"""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import lru_cache
from typing import TypeVar

from diagnose.characters import stripped
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.model import SHIPPED, Caution, Check, Fix

Step = TypeVar("Step", Check, Fix)


def called_for(cautions: Mapping[str, Caution], texts: Iterable[str]) -> tuple[str, ...]:
    """The ids of the cautions that some texts call for, in the order of the cautions."""
    whole = _plain(" ".join(texts))
    return tuple(one.id for one in cautions.values() if one.called_for_by and _speaks(one, whole))


def speaking(caution: Caution, texts: Iterable[str]) -> str:
    """The first words in some texts that call for a caution; "" where none do."""
    return _speaks(caution, _plain(" ".join(texts)))


def with_cautions(whole: Layer) -> None:
    """Add to each check and fix that does not ship the cautions that its words call for. One that says ``cautions: []``
    keeps its word: somebody looked at it and found that none applies."""
    for fix in whole.fixes.values():
        whole.fixes[fix.id] = _warned(whole, fix, (fix.title, *fix.steps))
    for check in whole.checks.values():
        whole.checks[check.id] = _warned(whole, check, (check.title, check.asks, *check.how))


def _warned(whole: Layer, step: Step, texts: Iterable[str]) -> Step:
    if step.origin == SHIPPED or _says_none(whole, step):
        return step
    return replace(step, cautions=tuple(dict.fromkeys((*step.cautions, *called_for(whole.cautions, texts)))))


def _says_none(whole: Layer, step: Check | Fix) -> bool:
    node = whole.nodes.get(step.place)
    return not step.cautions and node is not None and node.get("cautions") is not None


def _speaks(caution: Caution, text: str) -> str:
    if caution.not_by:
        text = _signs(caution.not_by).sub(" ", text)
    found = _signs(caution.called_for_by).search(text)
    return found[0] if found else ""


@lru_cache(maxsize=256)
def _signs(words: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile("|".join(map(_sign, words)))


def _sign(words: str) -> str:
    each = [
        re.escape(word.removesuffix("*")) + (r"\w*" if word.endswith("*") else "") for word in _plain(words).split()
    ]
    before = r"(?<!\w)" if words[0].isalnum() else ""
    after = r"(?!\w)" if words[-1].isalnum() else ""
    return before + r"[\s-]+".join(each) + after


def _plain(text: str) -> str:
    """A text as it is looked at: no signs that cannot be seen, one form for letters that are written in several."""
    return unicodedata.normalize("NFKC", stripped(text, lines=True)).casefold()
