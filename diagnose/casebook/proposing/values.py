"""What a person says about chances, numbers and facts -> the plain values that stand in a file."""

import re
from collections.abc import Mapping
from math import inf, isfinite

from diagnose.knowledge.conditions import Condition, FactValue, Test, parse_span
from diagnose.knowledge.documents.document import Plain
from diagnose.knowledge.model import WORKING_DAY, Fact, Knowledge
from diagnose.knowledge.near import did_you_mean
from diagnose.knowledge.readers.conditions import read_test

MOST_DAYS = 100  # as the schema has it
_WAIT = re.compile(
    r"(?P<much>an?|\d+(?:\.\d+)?)\s*(?P<unit>min(?:utes?)?|h(?:ours?)?|d(?:ays?)?)\s+for\s+(?P<what>\S.{0,79})",
    re.IGNORECASE,
)
_PER_CENT = re.compile(r"(\d+(?:\.\d+)?)\s*%")
_SPOKEN = (
    (re.compile(r"(?:under|below|less than)\s+(.+)"), r"< \1"),
    (re.compile(r"(?:over|above|more than)\s+(.+)"), r"> \1"),
    (re.compile(r"(?:at most|up to)\s+(.+)"), r"<= \1"),
    (re.compile(r"(?:at least|from)\s+([\d.]+)"), r">= \1"),
    (re.compile(r"(?:from |between )?([\d.]+)\s*(?:to|and|-|–)\s*([\d.]+)"), r"\1..\2"),
)


class Wrong(Exception):
    """A value that cannot be taken: what is wrong with it, what was expected, and a hint."""

    def __init__(self, wrong: str, expected: str = "", hint: str = "") -> None:
        self.wrong, self.expected, self.hint = wrong, expected, hint
        super().__init__(" - ".join(filter(None, (wrong, f"expected {expected}" if expected else "", hint))))


def words_for_chances(knowledge: Knowledge) -> dict[str, float]:
    """The words a chance may be written with, the surest first, each with its number."""
    graded = [word for word in knowledge.scale.values() if 0.0 < word.value < 1.0]
    return {word.word: word.value for word in sorted(graded, key=lambda word: -word.value)}


def chance(knowledge: Knowledge, said: str) -> str | float:
    """A word of the scale as it is, or a number: ``0.6``, ``60 %``. Raises Wrong."""
    known = words_for_chances(knowledge)
    plain = " ".join(said.lower().split())
    if plain in known:
        return plain
    per_cent = _PER_CENT.fullmatch(plain)
    number = float(per_cent[1]) / 100 if per_cent else _number(plain)
    if number is None or not 0.0 <= number <= 1.0:
        raise Wrong(
            f"“{said}” is no chance", f"{', '.join(known)}, or a number from 0 to 1", did_you_mean(plain, known)
        )
    return number


def minutes(said: str) -> float | int:
    """A number of minutes. Raises Wrong."""
    number = _number(said.lower().removesuffix("minutes").removesuffix("min").strip())
    if number is None or not 0.0 <= number <= 1000.0:
        raise Wrong(f"“{said}” is no number of minutes", "a number from 0 to 1000")
    return int(number) if number.is_integer() else number


def wait(said: str) -> dict[str, Plain]:
    """What is waited for and how long, as it stands in a file: ``an hour for the press to cool``, ``2 days for the
    cloth to come``. Raises Wrong."""
    told = _WAIT.fullmatch(said.strip())
    if told is None:
        raise Wrong(f"“{said}” is no wait", "how long and what for, such as: 60 min for the press to cool")
    much = 1.0 if told["much"].lower() in ("a", "an") else float(told["much"])
    unit = told["unit"].lower()
    time = much * (WORKING_DAY if unit.startswith("d") else 60.0 if unit.startswith("h") else 1.0)
    if not 0.0 < time <= MOST_DAYS * WORKING_DAY:
        raise Wrong(f"“{said}” is no wait", f"from a minute to {MOST_DAYS} working days")
    name, number = ("days", time / WORKING_DAY) if time >= WORKING_DAY else ("minutes", time)
    return {name: int(number) if number.is_integer() else round(number, 2), "for": told["what"]}


def pair(said: str, example: str) -> tuple[str, str]:
    """Both sides of ``one=other``. Raises Wrong."""
    one, mark, other = said.partition("=")
    if not mark or not one.strip() or not other.strip():
        raise Wrong(f"“{said}” has no two sides", f"something such as {example}")
    return one.strip(), other.strip()


def known(said: str, ids: Mapping[str, object], what: str) -> str:
    """The id as it was typed, where it is known. Raises Wrong with the nearest."""
    if said not in ids:
        raise Wrong(f"no {what} has the id “{said}”", "", did_you_mean(said, ids))
    return said


def requirement(knowledge: Knowledge, said: str) -> tuple[str, Plain]:
    """A fact and what it must be: ``item.polyester=under 65``, ``item.family=cloth,blend``. Raises Wrong."""
    fact = knowledge.facts[known(pair(said, "item.polyester=>= 65")[0], knowledge.facts, "fact")]
    wanted = pair(said, "item.polyester=>= 65")[1]
    if fact.yes_no or fact.one_of:
        values: list[Plain] = [value(fact, each) for each in wanted.split(",") if each.strip()]
        return fact.id, values[0] if len(values) == 1 else values
    plain = wanted.lower()
    for spoken, written in _SPOKEN:
        if match := spoken.fullmatch(plain):
            plain = match.expand(written)
    plain = plain.removesuffix(fact.unit.lower()).strip() if fact.unit else plain
    span = parse_span(plain)
    if span is None:
        return fact.id, value(fact, wanted)
    if span.least > span.most:
        raise Wrong(f"“{wanted}” leaves no number", "the smaller number first")
    if _outside(fact, span.least) and _outside(fact, span.most):
        raise Wrong(f"“{wanted}” lies outside what {fact.id} can be", _limits(fact))
    return fact.id, plain


def condition(tests: Mapping[str, Plain]) -> Condition:
    """The condition that facts and what they must be amount to."""
    made: list[Test] = [read_test(fact, wanted) for fact, wanted in tests.items()]
    return Condition(tuple(made))


def stated(knowledge: Knowledge, said: str) -> tuple[str, FactValue]:
    """A fact of a job and its value: ``item.polyester=65``. Raises Wrong."""
    fact_id, wanted = pair(said, "item.polyester=65")
    fact = knowledge.facts[known(fact_id, knowledge.facts, "fact")]
    return fact.id, value(fact, wanted)


def value(fact: Fact, said: str) -> FactValue:
    """A value that the fact can have, by itself or by one of the words people use for it. Raises Wrong."""
    plain = said.strip().lower()
    if fact.yes_no:
        if plain not in ("yes", "no", "true", "false"):
            raise Wrong(f"“{said}” is no answer to: {fact.asks}", "yes or no")
        return plain in ("yes", "true")
    if fact.one_of:
        names = {word: one for one in fact.one_of for word in (*fact.words.get(one, ()), one)}
        if plain not in names:
            hint = did_you_mean(plain, fact.one_of)
            raise Wrong(f"“{said}” is no answer to: {fact.asks}", f"one of {', '.join(fact.one_of)}", hint)
        return names[plain]
    number = _number(plain.removesuffix(fact.unit.lower()).strip() if fact.unit else plain)
    if number is None or _outside(fact, number):
        raise Wrong(f"“{said}” is no answer to: {fact.asks}", _limits(fact))
    return int(number) if number.is_integer() else number


def _limits(fact: Fact) -> str:
    least, most = fact.least, fact.most
    reach = f" from {least:g} to {most:g}" if least is not None and most is not None else ""
    return f"a number{reach} {fact.unit}, or such as under 65, at least 50, 50 to 80".replace("  ", " ")


def _outside(fact: Fact, number: float) -> bool:
    least = -inf if fact.least is None else fact.least
    most = inf if fact.most is None else fact.most
    return not (isfinite(number) and least <= number <= most)


def _number(said: str) -> float | None:
    try:
        number = float(said)
    except ValueError:
        return None
    return number if isfinite(number) and "_" not in said else None
