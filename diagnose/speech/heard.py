"""What was heard, said back: one line for each thing, with the words that carried it where they are others."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.dialogue.moves import (
    Answered,
    DidNotSee,
    FoundLately,
    LastGood,
    Measured,
    Move,
    Named,
    Pressed,
    Saw,
    TriedFix,
    Used,
)
from diagnose.dialogue.taking import Telling
from diagnose.foresight.figures import title
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import Defect, Item, Knowledge
from diagnose.reasoning.words.shares import COATED, COLOUR, FAMILY, POLYESTER
from diagnose.speech.amounts import day, degrees
from diagnose.speech.conditions import fact_words
from diagnose.speech.saying import listed, say
from diagnose.speech.titles import titled

HARD, SHAPE = "item.hard", "item.shape"
GROUND = f"fact {COLOUR}"  # the word for the colour of the goods, among the words that carried what was heard


@dataclass(frozen=True, slots=True)
class Echo:
    """Says back what was heard. ``unit``: ``C`` or ``F``, as the shop has it."""

    knowledge: Knowledge
    unit: str = "C"

    def line(self, telling: Telling, ground: str = "") -> str:
        """One thing as it was taken. ``ground``: the word that was said for the colour of the goods."""
        what = self.move(telling.move, ground)
        return what if _holds(what, telling.words) else say("heard-by-words", what=what, words=telling.words)

    def move(self, move: Move, ground: str = "") -> str:
        """One move, as a line without the words."""
        knowledge = self.knowledge
        match move:
            case Pressed(item, facts):
                return say("item", item=goods(knowledge, item, facts, ground))
            case Saw(defects):
                return " ".join(named(knowledge.defects[defect]) for defect in defects)
            case DidNotSee(defects):
                return say("not-there", title=listed([knowledge.defects[defect].title for defect in defects]))
            case Measured(figures):
                return "; ".join(self._figure(name, value) for name, value in figures.items())
            case Answered(check_id, outcome):
                check = knowledge.checks[check_id]
                return say("answered", check=titled(check), looks=check.outcome(outcome).looks)
            case Named(cause):
                return say("you-named", cause=titled(knowledge.causes[cause]))
            case LastGood():
                return last_good(move, self.unit)
            case FoundLately(cause, on):
                return say("found-lately", day=day(on), cause=titled(knowledge.causes[cause]))
            case Used(used):
                return say("used-now", what=_goods_used(used))
            case TriedFix(_, _, gone) if gone:
                return say("gone-now", defects=listed([knowledge.defects[defect].title for defect in gone]))
            case TriedFix(fix, change):
                return say("tried", fix=titled(knowledge.fixes[fix]), change=change)
        return ""

    def _figure(self, name: str, value: float) -> str:
        what = title(name) if "." not in name else name
        return say("figure-heard", figure=f"{what[0].upper()}{what[1:]}", amount=amount(name, value, self.unit))


def last_good(good: LastGood, unit: str) -> str:
    """What the last good piece was set to: ``Last came out well on 12 Nov 2026: 200 °C (392 °F), 60 s, paper: the green
    box``."""
    what = set_to(good, unit)
    return say("last-good", day=day(good.on), what=what) if what else say("last-good-bare", day=day(good.on))


def set_to(good: LastGood, unit: str) -> str:
    """The figures and goods of a good piece, in one line; "" where none are known."""
    figures = [amount(name, value, unit) for name, value in good.figures.items()]
    return ", ".join(filter(None, [*figures, _goods_used(good.used)]))


def _goods_used(used: Mapping[str, str]) -> str:
    return ", ".join(say("goods-used", kind=kind, words=words) for kind, words in used.items())


def amount(name: str, value: float, unit: str) -> str:
    """A figure with its unit, by its name: ``177 °C (350 °F)``, ``40 s``."""
    if name in ("set", "probe", "strip"):
        return degrees(value, unit)
    if name in ("dwell", "watch"):
        return say("seconds", seconds=value)
    if name == "sheets":
        return say("sheets", count=round(value))
    if name == "thickness":
        return say("of-unit", value=say("general-number", value=round(value * 1000, 2)), unit="mm")
    return say("general-number", value=value)


def goods(knowledge: Knowledge, item_id: str, facts: Mapping[str, FactValue], ground: str = "") -> str:
    """The goods with what was said of them: ``T-shirt, red, 85 % polyester``, not the nearest of the list."""
    item = knowledge.items.get(item_id)
    own: Mapping[str, FactValue] = item.facts if item else {}
    told = {fact: value for fact, value in facts.items() if fact.startswith("item.") and own.get(fact) != value}
    if POLYESTER in told:
        told.pop(FAMILY, None)  # a blend: the share says so
    ordered = sorted(told, key=lambda fact: (fact != COLOUR, fact != POLYESTER, fact))
    beside = [ground if fact == COLOUR and ground else _said_of(knowledge, fact, told[fact]) for fact in ordered]
    return ", ".join([_called(item, told), *beside])


def _called(item: Item | None, told: Mapping[str, FactValue]) -> str:
    """The title, without the stuff that stands after its comma where another was told."""
    if item is None:
        return say("goods-on-no-list") if told else say("unnamed-item")
    return item.title.partition(",")[0] if POLYESTER in told else item.title


def _said_of(knowledge: Knowledge, fact: str, value: FactValue) -> str:
    """A fact of the goods as it is said beside their name."""
    if fact == COLOUR:
        return say("ground-colour", colour=value)
    if fact == POLYESTER:
        return say("of-polyester", share=value)
    if fact == HARD:
        return say("hard-or-cloth", hard="yes" if value else "no")
    if fact == COATED:
        return say("coated-or-not", coated="yes" if value else "no")
    return str(value) if fact == SHAPE else fact_words(fact, value, knowledge.facts).lower()


def named(defect: Defect) -> str:
    """A defect by its title, and what it looks like in one sentence."""
    head, stop, _ = defect.looks.partition(". ")
    return f"{defect.title}: {head}{'.' if stop else ''}"


def _holds(line: str, words: str) -> bool:
    """Whether a line says the words by itself: each of them, or the number they begin with."""
    plain, said = _letters(line), [_letters(word) for word in words.split()]
    digits = "".join(sign for sign in words if sign.isdigit())
    return all(word in plain for word in said) or bool(digits and said[0].startswith(digits) and digits in plain)


def _letters(text: str) -> str:
    return "".join(sign for sign in text.lower() if sign.isalnum())
