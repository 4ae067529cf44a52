"""Which item a person means, and what their words say of it beyond its usual facts."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnose.knowledge.conditions import FactValue
from diagnose.reasoning.words.lexicon import Lexicon
from diagnose.reasoning.words.scoring import Evidence, evidence
from diagnose.reasoning.words.shares import FAMILY, POLYESTER, facts_beside
from diagnose.reasoning.words.spelling import clauses
from diagnose.reasoning.words.units import Unit

LEAST_CLOSE = 0.45  # how much of a name must be there when an item was asked for
CLOSE_IN_PASSING = 0.79  # and when it is named in passing
BLENDED = "blend"


@dataclass(frozen=True, slots=True)
class ItemMatch:
    """An item and the facts said beside it that differ from its own. ``id`` is "" where the words give away
    facts but no item that is known. ``words``: where the item stands among the words (first, last + 1)."""

    id: str
    facts: Mapping[str, FactValue] = field(default_factory=dict)
    score: float = 0.0
    words: tuple[int, int] = (0, 0)


def find_item(lexicon: Lexicon, text: str) -> ItemMatch | None:
    """The item a text names; None where it names none and gives no fact away. An id is taken as it stands."""
    if text.strip() in lexicon.knowledge.items:
        return ItemMatch(text.strip(), {}, 100.0, (0, len(clauses(text))))
    return item_among(lexicon, text, LEAST_CLOSE)


def item_among(lexicon: Lexicon, text: str, least: float = CLOSE_IN_PASSING) -> ItemMatch | None:
    """The item named anywhere in a text; ``least`` is how much of a name must be there."""
    asked = [unit for unit in lexicon.literal_units(text) if not unit.denied]
    found = _best(evidence(lexicon.items, asked), least)
    words = [word.text for word in clauses(text)]
    near = _where(found[1], asked) if found else (0, len(words) if len(words) <= 3 else 0)
    said, near = facts_beside(text, words, near, lexicon.knowledge.facts)
    if found is None:
        return ItemMatch("", said) if said else None
    item = lexicon.knowledge.items[found[0]]
    facts = {fact: value for fact, value in said.items() if item.facts.get(fact) != value}
    share = facts.get(POLYESTER)
    if isinstance(share, int) and 0 < share < 100 and item.facts.get(FAMILY) == "cloth":
        facts[FAMILY] = BLENDED
    return ItemMatch(item.id, facts, found[2], near)


def _best(seen: Evidence, least: float) -> tuple[str, list[int], float] | None:
    """The item of the name that is most fully and most tellingly there: its id, the units, the score."""
    ranked = []
    for name, parts in seen.found.items():
        best: dict[int, tuple[float, int]] = {}
        for unit, place, surety in parts:
            best[place] = max(best.get(place, (0.0, 0)), (surety, -unit))
        weights, total = seen.index.name(name)
        share = sum(weights[place] * surety for place, (surety, _) in best.items()) / (total or 1.0)
        if share >= least:
            owner = seen.index.owners[seen.index.owner[name]]
            ranked.append((-total * share**3, owner, sorted(-unit for _, unit in best.values())))
    if not ranked:
        return None
    score, owner, units = min(ranked)
    return owner, units, -score


def _where(numbers: list[int], units: list[Unit]) -> tuple[int, int]:
    """The words from the first to the last of some units."""
    return min(units[n].words[0] for n in numbers), max(units[n].words[1] for n in numbers)
