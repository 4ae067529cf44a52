"""Turning free words, or ids, into what the session understands."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from diagnose.dialogue.moves import Move, Saw
from diagnose.dialogue.wishes import corrected
from diagnose.foresight.figures_told import ToldFigure, figures_told, without_figures
from diagnose.knowledge.conditions import FactValue
from diagnose.knowledge.model import Knowledge
from diagnose.reasoning.words import THE_REST, ItemMatch, Lexicon, Understood, find_item, understand
from diagnose.reasoning.words.shares import COLOUR
from diagnose.reasoning.words.spelling import clauses, cut, is_cut, taken

KEPT_IN_THE_TEXT = "thickness"  # a fact of the item as well
SHORT = 4  # words of a correction that may name nothing but an item


@dataclass(frozen=True, slots=True)
class Heard:
    """What some words were taken for: defects seen and not seen, answers to checks, and what was left over.
    ``item`` and ``facts`` are what they say of the job, "" and empty where they say nothing; ``refused`` the stuff that
    the goods are of, where it is one that no print takes to. ``elsewhere``: the craft or trade that
    they ask about, by its id, where it is another one. ``figures``: by their names in
    ``diagnose.foresight.figures``, as they are held there; ``causes``: those the person names; ``tried``: fixes, each
    with ``better``, ``same`` or "". ``unsure``: readings that come near each other, at most three, one of which may be
    meant. ``spoken``: the words that carried each, by ``item``, ``defect ID``, ``not-seen ID``, ``answer CHECK``,
    ``figure NAME``, ``cause ID``, ``fix ID`` and ``fact ID``."""

    defects: tuple[str, ...] = ()
    not_seen: tuple[str, ...] = ()
    answers: tuple[tuple[str, str], ...] = ()
    item: str = ""
    facts: tuple[tuple[str, FactValue], ...] = ()
    refused: str = ""
    elsewhere: str = ""
    not_understood: tuple[str, ...] = ()
    figures: tuple[tuple[str, float], ...] = ()
    causes: tuple[str, ...] = ()
    tried: tuple[tuple[str, str], ...] = ()
    unsure: tuple[tuple[Move, ...], ...] = ()
    spoken: Mapping[str, str] = field(default_factory=dict, compare=False)

    @property
    def of_the_fault(self) -> bool:
        """Whether anything was told but the goods."""
        return any(
            (self.defects, self.not_seen, self.answers, self.figures, self.causes, self.tried, self.unsure),
        )

    @property
    def of_another_craft(self) -> bool:
        """Whether they ask about another craft and tell no defect: what they seem to answer is no answer of ours."""
        return bool(self.elsewhere) and not self.defects


def hear(knowledge: Knowledge, lexicon: Lexicon, text: str) -> Heard:
    """What the words say. An id of a defect is taken as it stands."""
    if text.strip() in knowledge.defects:
        return Heard(defects=(text.strip(),))
    short = taken(text)
    figures = figures_told(short)
    left = without_figures(short, [figure for figure in figures if figure.name != KEPT_IN_THE_TEXT])
    left, ground = _without_ground(knowledge, lexicon, left)
    understood = understand(lexicon, text if left == short else left)
    item = understood.item
    facts = {**_facts(item), **{fact: value for fact, value, _ in ground}}
    doubtful = next((match for match in understood.defects if match.near), None)
    return Heard(
        defects=tuple(match.id for match in understood.defects if match is not doubtful),
        not_seen=tuple(understood.not_seen),
        answers=tuple((check, outcome) for check, outcome, _ in understood.outcomes),
        item=item.id if item else "",
        facts=tuple(sorted(facts.items())),
        refused=item.refused if item else "",
        not_understood=_left_over(understood, text, read=left != short),
        figures=tuple((figure.name, figure.value) for figure in figures),
        causes=tuple(each.told[0] for each in understood.causes),
        elsewhere=understood.elsewhere,
        unsure=tuple((Saw((each,)),) for each in (doubtful.id, *doubtful.near)) if doubtful else (),
        spoken=dict(
            [
                *_spoken(understood, left),
                *_figures_spoken(figures, short),
                *_ground_spoken(knowledge, facts, ground, left),
            ]
        ),
    )


def hear_again(knowledge: Knowledge, lexicon: Lexicon, text: str) -> Heard:
    """What words say that may correct what was said before: "no, it's a tile, not a mug" names the tile alone."""
    instead = corrected(text)
    if not instead or len(cut(instead)) > SHORT:
        return hear(knowledge, lexicon, text)
    heard = hear(knowledge, lexicon, instead)
    found = None if heard.item or heard.of_the_fault else find_item(lexicon, instead)
    if found is None or found.refused or not found.id:
        return heard
    return replace(heard, item=found.id, facts=tuple(sorted(found.facts.items())), not_understood=())


def _facts(item: ItemMatch | None) -> dict[str, FactValue]:
    """What is said of the goods. A colour beside no goods is one of the print."""
    if item is None:
        return {}
    return {fact: value for fact, value in item.facts.items() if item.id or fact != COLOUR}


def _left_over(understood: Understood, text: str, *, read: bool) -> tuple[str, ...]:
    """What was not understood; where only a part of the text was ``read``, what was cut off as well."""
    return (*understood.not_understood, *([THE_REST] if read and is_cut(text) else []))


def _without_ground(knowledge: Knowledge, lexicon: Lexicon, text: str) -> tuple[str, list[tuple[str, FactValue, str]]]:
    """The text without a part that is nothing but the colour of the goods ("T-shirt, red, large"), and what it says:
    the fact, its value, the words. A colour that is the name of a defect as well ("mug, pale") is none of the goods."""
    fact, parts = knowledge.facts.get(COLOUR), text.split(",")
    if fact is None or len(parts) < 2:
        return text, []
    named = {name: value for value in fact.one_of for name in (value, *fact.words.get(value, ()))}
    said = [(part, word) for part in parts if (word := " ".join(cut(part))) in named and not lexicon.whole(word)]
    if len(said) != 1:
        return text, []
    part, word = said[0]
    kept = ",".join(each for each in parts if each != part)
    goods = find_item(lexicon, kept)
    return (kept, [(COLOUR, named[word], part.strip())]) if goods and goods.id else (text, [])


def _spoken(understood: Understood, text: str) -> Iterator[tuple[str, str]]:
    for match in understood.defects:
        if match.because:
            yield f"defect {match.id}", " ".join(match.because)
    yield from ((f"answer {each.told[0]}", each.because) for each in understood.answers)
    yield from ((f"cause {each.told[0]}", each.because) for each in understood.causes)
    if understood.item and understood.item.id:
        yield "item", " ".join(word.text for word in clauses(text)[slice(*understood.item.words)])


def _figures_spoken(figures: list[ToldFigure], text: str) -> Iterator[tuple[str, str]]:
    return ((f"figure {figure.name}", text[figure.first : figure.last].strip()) for figure in figures)


def _ground_spoken(
    knowledge: Knowledge, facts: Mapping[str, FactValue], ground: list[tuple[str, FactValue, str]], text: str
) -> Iterator[tuple[str, str]]:
    """The word for the colour of the goods, which says more than the value that it stands for."""
    names = knowledge.facts[COLOUR].words.get(str(facts[COLOUR]), ()) if COLOUR in facts else ()
    said, plain = [words for _, _, words in ground], f" {' '.join(cut(text))} "
    said += sorted((name for name in names if f" {name} " in plain), key=len, reverse=True)
    return ((f"fact {COLOUR}", words) for words in said[:1])
