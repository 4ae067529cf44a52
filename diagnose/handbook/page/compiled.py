"""The knowledge as the page's engine needs it: the least that the same diagnosis takes in a browser.

Causes are told by their number within shows, cures and rules; a pair is ``[cause, chance]``. What is empty is left
out, and the engine's ``unpack.js`` fills it in again. Whatever the page can link to (why a rule holds, on whose
word, the glossary, settings) stays out. Names that only free words are matched by are in ``vocabulary.py``, the steps
of checks and fixes in ``doing.py``.
"""

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import asdict
from pathlib import Path
from typing import Any, TypeAlias

from diagnose.foresight.forecast import LATER
from diagnose.handbook.page.measured import PressGathering, measures
from diagnose.handbook.page.shared import shared
from diagnose.knowledge.cautions import at_a_press, is_away, presses
from diagnose.knowledge.conditions import Condition, FactValue, Test
from diagnose.knowledge.model import (
    SHIPPED,
    Cause,
    Chance,
    Check,
    Danger,
    Defect,
    Fact,
    Fix,
    Item,
    Knowledge,
    Outcome,
    Rule,
    Shape,
    Spends,
    Wait,
)
from diagnose.knowledge.preparing import Salvage, Statement
from diagnose.knowledge.shop import Press, Rates, Shop
from diagnose.knowledge.trial import on_trial
from diagnose.reasoning.words.dangers import dangers
from diagnose.speech.saying import sentences

Packed: TypeAlias = dict[str, Any]
Index: TypeAlias = Mapping[str, int]

ENGINE = (  # in the order the page loads them
    "numbers",
    "say",
    "conditions",
    "unpack",
    "network",
    "evidence",
    "factors",
    "folding",
    "weights",
    "sweep",
    "bounds",
    "beliefs",
    "outlook",
    "doubt",
    "planner",
    "estimate",
    "planning",
    "ranking",
    "reasons",
    "heat",
    "measures",
    "wording",
    "session",
    "then",
    "consultation",
    "aftermath",
    "telling",
    "speech",
)
AT_ONCE = ("stems", "spelling", "slips", "dangers")  # of what reads free words: dangers are heard before all else
WORDS = (  # what reads free words by the vocabulary, and comes with it
    "groups",
    "units",
    "index",
    "scoring",
    "exact",
    "tokens",
    "table",
    "names",
    "runs",
    "division",
    "denials",
    "lexicon",
    "outcomes",
    "shares",
    "items",
    "understand",
)
SAID = re.compile(r"\bsay\('([\w-]+)'")  # a sentence that a script says
CAST = re.compile(r"/\*\* @[^*]*\*/ ?")  # a type that the checks are told within a line
ASIDE = re.compile(r"(?<=[;,{}()\[\]]) // .*$")  # a comment behind code
QUOTED = re.compile(r"""('(?:\\.|[^'\\])*'|"(?:\\.|[^"\\])*"|`(?:\\.|[^`\\])*`)""")
ROUND_SIGNS = re.compile(r" ?(=>|[=!]==|&&|\|\||[=?:,{}()<>;*]|(?<![+-])(?<![+-] )[+-](?= ?[^ +-])) ?")
BEFORE_CLOSING = re.compile(r"(?<=[;})])\n(?=[})])")
OPEN_ENDS = ("{", "(", "[", ",", ";", "&&", "||", "=>", "?", ":")


def engine_files() -> list[Path]:
    """The files of the engine, in the order the page loads them."""
    return [*_first(), *_of_words(WORDS)]


def engine_script() -> str:
    """The engine as one classic script, but for what comes with the vocabulary. What it shares with this side stands
    first: of the sentences, those that the whole of it says."""
    said = {name: sentences()[name] for name in sorted(set(SAID.findall(joined(engine_files()))))}
    return assigned("shared", {**shared(), "sentences": said}) + joined(_first())


def words_script() -> str:
    """The rest of the engine, which reads free words by the vocabulary."""
    return joined(_of_words(WORDS))


def _first() -> list[Path]:
    folder = Path(__file__).with_name("engine")
    return [*(folder / f"{name}.js" for name in ENGINE), *_of_words(AT_ONCE)]


def _of_words(names: Iterable[str]) -> list[Path]:
    return [Path(__file__).with_name("engine") / "words" / f"{name}.js" for name in names]


def joined(paths: list[Path]) -> str:
    """Scripts as one, without the comments, types, indents and blanks that only people and checks read."""
    lines = (line.strip() for path in paths for line in path.read_text(encoding="utf-8").splitlines())
    kept, talking = [], False
    for line in lines:
        talking = talking or (line.startswith("/*") and not CAST.match(line))
        bare = ASIDE.sub("", CAST.sub("", line))
        if bare and not talking and not bare.startswith("//"):
            kept.append(bare)
        talking = talking and not line.endswith("*/")
    return BEFORE_CLOSING.sub("", "".join(map(_tightened, kept)))


def _tightened(line: str) -> str:
    """A line without the blanks round signs, and without its end where a sign there leaves the statement open. One
    that may hold a template in a template, an expression of its own or a comment stays as it is."""
    parts = QUOTED.split(line)
    if line.count("`") > 2 or any("/" in part or "`" in part for part in parts[::2]):
        return line + "\n"
    tight = "".join(part if at % 2 else ROUND_SIGNS.sub(r"\1", part) for at, part in enumerate(parts))
    return tight if tight.endswith(OPEN_ENDS) else tight + "\n"


def script(knowledge: Knowledge, shop: Shop) -> str:
    """The compiled knowledge as a classic script, which no text in it can break out of."""
    return assigned("knowledge", compiled(knowledge, shop))


def assigned(name: str, value: Packed) -> str:
    """A classic script that hands a value to the engine. No sign of HTML stands in it as such."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    for sign in "<\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return f"var presslore = presslore || {{}};\npresslore.{name} = {text};\n"


def compiled(knowledge: Knowledge, shop: Shop) -> Packed:
    """Everything the engine needs, as plain JSON values. The same knowledge and shop always give the same."""
    index = {cause: i for i, cause in enumerate(knowledge.causes)}
    press = PressGathering(knowledge)
    items = [{**_item(item, knowledge), **press.of(item)} for item in knowledge.items.values()]
    return {
        "version": knowledge.version,
        **_lean(currency=shop.currency, unit=shop.temperature if shop.temperature != "C" else ""),
        "rates": _rates(shop.rates),
        "scale": [[word.word, _number(word.value)] for word in knowledge.scale.values()],
        "facts": [_fact(fact) for fact in knowledge.facts.values()],
        "beforePress": list(at_a_press(knowledge.cautions)),
        "causes": [_cause(cause) for cause in knowledge.causes.values()],
        "checks": [_check(check, knowledge, index) for check in knowledge.checks.values()],
        "fixes": [_fix(fix, knowledge, index) for fix in knowledge.fixes.values()],
        "defects": [_defect(defect, index) for defect in knowledge.defects.values()],
        "items": items,
        **_lean(bars=[_bar(statement) for statement in knowledge.ready.values() if statement.bars]),
        "dangers": [_danger(danger) for danger in knowledge.dangers.values()],
        "cautions": [{"id": c.id, "title": c.title, "text": c.text} for c in knowledge.cautions.values()],
        **_lean(readings=measures(knowledge, index), press=press.whole()),
        **_lean(presses=[_press(each, index) for each in shop.presses.values()]),
        "spoilt": shop.spoilt,
        **_lean(salvage=[_salvage(each) for each in knowledge.salvage.values()]),
    }


def _lean(**parts: Any) -> Packed:
    """The parts that hold something. Python's ``if_`` stands for ``if``."""
    return {name.rstrip("_"): part for name, part in parts.items() if part not in ("", None, False, [], {})}


def _number(value: float) -> float:
    """A whole number without its ``.0``."""
    return int(value) if value == int(value) else value


def _value(value: FactValue) -> FactValue:
    return value if isinstance(value, bool | str) else _number(value)


def _rates(rates: Rates) -> Packed:
    named = {"help_minutes": "helpMinutes"}
    return {named.get(k, k): _number(v) for k, v in (asdict(rates) | {"waiting": rates.minute_waited}).items()}


def _waits(waits: Wait) -> Packed:
    return {"time": _number(waits.time), "what": waits.what} if waits.time else {}


def _spends(spends: Spends) -> Packed:
    return {name: _number(value) for name, value in asdict(spends).items() if value}


def _chances(chances: Mapping[str, Chance], index: Index) -> list[list[float]]:
    return [[index[cause], _number(chance.value)] for cause, chance in chances.items() if cause in index]


def _condition(condition: Condition) -> list[Packed]:
    return [_test(test) for test in condition.tests]


def _test(test: Test) -> Packed:
    span = test.span
    if span is None:
        return {"fact": test.fact, "values": [_value(value) for value in test.values]}
    ends = {"least": span.least, "most": span.most}
    finite = {name: _number(end) for name, end in ends.items() if abs(end) != float("inf")}
    return {"fact": test.fact, **finite, **_lean(above=span.above_least, below=span.below_most)}


def _fact(fact: Fact) -> Packed:
    return {
        "id": fact.id,
        "title": fact.title,
        "asks": fact.asks,
        **_lean(oneOf=list(fact.one_of), unit=fact.unit, yesNo=fact.yes_no, words=_words(fact.words)),
        **{name: _number(end) for name, end in (("least", fact.least), ("most", fact.most)) if end is not None},
    }


def _words(words: Mapping[str, Iterable[str]]) -> list[list[Any]]:
    return [[value, list(said)] for value, said in words.items()]


def _cause(cause: Cause) -> Packed:
    shapes = [_shape(shape) for shape in cause.shapes]
    origin = "" if cause.origin == SHIPPED else cause.origin
    return {
        "id": cause.id,
        "title": cause.title,
        "turnsUp": _number(cause.turns_up.value),
        **_lean(shapes=shapes, origin=origin, later=cause.family == LATER),
    }


def _shape(shape: Shape) -> Packed:
    return {"if": _condition(shape.condition), "turnsUp": _number(shape.turns_up.value)}


def _check(check: Check, knowledge: Knowledge, index: Index) -> Packed:
    return {
        "id": check.id,
        "title": check.title,
        "asks": check.asks,
        "minutes": _number(check.minutes),
        "wrong": check.wrong,
        **_lean(waits=_waits(check.waits)),
        **_lean(spends=_spends(check.spends), if_=_condition(check.condition), cautions=list(check.cautions)),
        **_lean(presses=presses(knowledge.cautions, check)),
        **_whose(check),
        "outcomes": [_outcome(outcome, index) for outcome in check.outcomes],
    }


def _bar(statement: Statement) -> Packed:
    """Why goods are not pressed at all where the facts of a job refute this."""
    told = {"id": statement.id, "why": statement.why, "instead": statement.do}
    return {**told, "refuted": _condition(statement.refuted), **_lean(if_=_condition(statement.condition))}


def _danger(danger: Danger) -> Packed:
    """``said``: what the page would not hear of it by its grammar."""
    said = [text for text in danger.said if danger.id not in dangers(text)]
    told = {"id": danger.id, "title": danger.title, "steps": list(danger.steps), "call": danger.call}
    return {**told, "never": list(danger.never), **_lean(said=said)}


def _whose(step: Check | Fix) -> Packed:
    """Where a step comes from, where it did not ship, and whether it is on trial."""
    return _lean(origin="" if step.origin == SHIPPED else step.origin, trial=on_trial(step))


def _outcome(outcome: Outcome, index: Index) -> Packed:
    shows, otherwise = _chances(outcome.shows, index), _number(outcome.otherwise.value)
    return {
        "id": outcome.id,
        "looks": outcome.looks,
        **_lean(facts=_condition(outcome.facts), shows=shows, otherwise=otherwise or None),
        **_lean(nextSpoils=_number(outcome.next_spoils.value) or None),
    }


def _fix(fix: Fix, knowledge: Knowledge, index: Index) -> Packed:
    return {
        "id": fix.id,
        "title": fix.title,
        "minutes": _number(fix.minutes),
        **_lean(byFigure=fix.by_figure),
        **_lean(waits=_waits(fix.waits)),
        **_lean(spends=_spends(fix.spends), if_=_condition(fix.condition), cautions=list(fix.cautions)),
        **_lean(away=is_away(knowledge.cautions, fix)),
        **_whose(fix),
        "cures": _chances(fix.cures, index),
    }


def _defect(defect: Defect, index: Index) -> Packed:
    rules = [_rule(rule, index) for rule in defect.rules if rule.cause in index]
    return {
        "id": defect.id,
        "title": defect.title,
        "looks": defect.looks,
        "otherwise": _number(defect.otherwise.value),
        **_lean(tells=list(defect.also_answers)),
        "rules": rules,
    }


def _rule(rule: Rule, index: Index) -> list[Any]:
    """Cause, chance, and where there are any: condition, and 1 for a rule on trial."""
    packed = [index[rule.cause], _number(rule.brings.value)]
    if on_trial(rule):
        return [*packed, _condition(rule.condition), 1]
    return [*packed, _condition(rule.condition)] if rule.condition.tests else packed


def _salvage(each: Salvage) -> Packed:
    """Each way: its name, how often it comes out well, how or why not, and where it takes any, its minutes."""
    ways = [
        [name, _number(way.comes_out.value), way.says, *([_number(way.minutes)] if way.minutes else [])]
        for name, way in each.ways.items()
    ]
    return {"defects": list(each.defects), **_lean(if_=_condition(each.condition)), "why": each.why, "ways": ways}


def _press(press: Press, index: Index) -> Packed:
    known = [
        [index[each.cause], _number(each.turns_up.value), each.told] for each in press.known if each.cause in index
    ]
    return {"id": press.id, "title": press.title, **_lean(facts=_job(press.facts), known=known)}


def _job(facts: Mapping[str, FactValue]) -> list[list[Any]]:
    return [[fact, _value(value)] for fact, value in facts.items()]


def _may_be(item: Item) -> list[list[Any]]:
    """By fact, what it may be instead of what is usual, each with its chance."""
    return [
        [fact, [[_value(each.value), _number(each.turns_up.value)] for each in instead]]
        for fact, instead in item.may_be.items()
        if instead and fact in item.facts
    ]


def _item(item: Item, knowledge: Knowledge) -> Packed:
    return {
        "id": item.id,
        "title": item.title,
        "family": item.family,
        "facts": _job(item.facts),
        **_lean(mayBe=_may_be(item)),
        "blankPrice": _number(item.blank_price),
        "testMinutes": _number(item.test_minutes),
        **_lean(cautions=list(at_a_press(knowledge.cautions, item))),
    }
