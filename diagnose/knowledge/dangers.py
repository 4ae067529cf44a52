"""Which cautions the words of a step call for: data of the cautions themselves, looked for in what somebody wrote.

What ships names its cautions one by one. What a shop writes, and what comes in a bundle, shows those that its words
call for as well, whether it names them or not. A list of words is never complete: a step on trial, which nobody here
has tried, carries a caution of its own besides.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any, TypeVar

from diagnose.knowledge.disguise import LEAST_JOINED, joined, plain, readings
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.limits import MOST_LOOKING, SPLIT
from diagnose.knowledge.model import SHIPPED, THIS_SHOP, Caution, Check, Fix, from_a_bundle
from diagnose.knowledge.trial import on_trial
from diagnose.problems import Collector

Step = TypeVar("Step", Check, Fix)
STANDING = "another-shop"  # the caution that every step on trial carries


def called_for(cautions: Mapping[str, Caution], texts: Iterable[str]) -> tuple[str, ...]:
    """The ids of the cautions that some texts call for, in the order of the cautions."""
    looked_at = _looked_at(texts)
    return tuple(one.id for one in cautions.values() if one.called_for_by and _speaks(one, looked_at))


def speaking(caution: Caution, texts: Iterable[str]) -> str:
    """The first words in some texts that call for a caution; "" where none do."""
    return _speaks(caution, _looked_at(texts))


def texts_of(step: Mapping[str, Any]) -> list[str]:
    """All that is read of a check or fix while it is done, from its plain values."""
    listed = (text for part in ("how", "steps", "needs") for text in step.get(part, ()))
    looks = (outcome["looks"] for outcome in step.get("outcomes", {}).values())
    return [str(text) for text in (step["title"], step.get("asks", ""), *listed, *looks)]


def with_cautions(whole: Layer) -> None:
    """Add to each check and fix that does not ship the cautions that its words call for, and to every fix those that
    are called for by what bundles say of its causes. One of a shop's own that says ``cautions: []`` keeps its word:
    somebody looked at it and found that none applies."""
    told = {cause: called_for(whole.cautions, texts) for cause, texts in _from_bundles(whole).items()}
    for step, texts in list(_steps(whole)):
        if isinstance(step, Fix):
            of_causes = [caution for cause in step.cures for caution in told.get(cause, ())]
            whole.of("fixes")[step.id] = _warned(whole, step, texts, of_causes)
        else:
            whole.of("checks")[step.id] = _warned(whole, step, texts)


def can_be_looked_at(whole: Layer, found: Collector) -> bool:
    """Whether the steps that do not ship and the words that call for cautions are few enough, taken together."""
    words = sum(len(one.called_for_by) + len(one.not_by) for one in whole.cautions.values())
    letters = 0
    for step, texts in _steps(whole):
        letters += 0 if step.origin == SHIPPED else sum(map(len, texts))
        if words * letters > MOST_LOOKING:
            wrong = f"too much to look through for dangers: {words:,} words that call for cautions, in all these steps"
            found.add(step.place, "too-much-to-look-through", wrong, hint=SPLIT)
            return False
    return True


def _steps(whole: Layer) -> Iterator[tuple[Check | Fix, Sequence[str]]]:
    yield from ((fix, (fix.title, *fix.steps)) for fix in whole.fixes.values())
    for check in whole.checks.values():
        looks = (outcome.looks for outcome in check.outcomes)
        yield check, (check.title, check.asks, *check.how, *check.needs, *looks)


def _from_bundles(whole: Layer) -> Mapping[str, list[str]]:
    """By cause, what came in bundles to be read of it: what it is about, why it brings things on, how they look."""
    found: dict[str, list[str]] = defaultdict(list)
    for cause in whole.causes.values():
        if from_a_bundle(cause.origin):
            found[cause.id] += [cause.title, cause.about]
    for defect in whole.defects.values():
        looks = [defect.title, defect.looks] if from_a_bundle(defect.origin) else []
        for rule in defect.rules:
            if from_a_bundle(rule.origin):
                found[rule.cause] += [rule.why, *looks]
    return found


def _warned(whole: Layer, step: Step, texts: Iterable[str], more: Sequence[str] = ()) -> Step:
    quiet = step.origin == SHIPPED or (step.origin == THIS_SHOP and _says_none(whole, step))
    called: Sequence[str] = () if quiet else called_for(whole.cautions, texts)
    standing: Sequence[str] = [STANDING] if on_trial(step) and STANDING in whole.cautions else []
    cautions = tuple(dict.fromkeys((*standing, *step.cautions, *called, *more)))
    return replace(step, cautions=cautions) if cautions != step.cautions else step


def _says_none(whole: Layer, step: Check | Fix) -> bool:
    node = whole.nodes.get(step.place)
    return not step.cautions and node is not None and node.get("cautions") is not None


def _looked_at(texts: Iterable[str]) -> tuple[tuple[str, ...], str]:
    """Some texts in every way in which words may be hidden in them, and their words joined to their neighbours."""
    whole = " ".join(texts)
    return tuple(dict.fromkeys(readings(whole))), joined(whole)


def _speaks(caution: Caution, looked_at: tuple[tuple[str, ...], str]) -> str:
    each, neighbours = looked_at
    return next(_found(caution, each, neighbours), "")


def _found(caution: Caution, each: Iterable[str], neighbours: str) -> Iterator[str]:
    for text in each:
        passed = _signs(caution.not_by).sub(" ", text) if caution.not_by else text
        yield from (found[0] for found in [_signs(caution.called_for_by).search(passed)] if found)
    if long := tuple(words for words in caution.called_for_by if _is_long(words)):
        yield from (found[0] for found in [_signs(long).search(neighbours)] if found)


def _is_long(words: str) -> bool:
    return words.removesuffix("*").isalpha() and len(words.removesuffix("*")) >= LEAST_JOINED


@lru_cache(maxsize=256)
def _signs(words: tuple[str, ...]) -> re.Pattern[str]:
    """All the words in one expression; those that begin with a letter or figure share what stands before, which is the
    faster by far."""
    whole = [each for each in words if each[0].isalnum() or each[0] == "#"]
    within = [_sign(each) for each in words if each not in whole]
    return re.compile("|".join([rf"(?<!\w)(?:{'|'.join(map(_sign, whole))})"] * bool(whole) + within))


def _sign(words: str) -> str:
    after = r"(?!\w)" if words[-1].isalnum() else ""
    return r"[\s-]+".join(map(_word, plain(words).split())) + after


def _word(word: str) -> str:
    """What a word is looked for by: ``*`` at its end for any ending, ``#`` at its beginning for a figure."""
    figure = r"\d{2,}(?:[.,]\d+)?[\s-]*" if word.startswith("#") else ""
    rest = word.removeprefix("#")
    return figure + re.escape(rest.removesuffix("*")) + (r"\w*" if rest.endswith("*") else "")
