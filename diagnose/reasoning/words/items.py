"""Which item a person means, and what their words say of it beyond its usual facts."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from diagnose.knowledge.conditions import FactValue
from diagnose.reasoning.words.exact import whole_key
from diagnose.reasoning.words.lexicon import Lexicon
from diagnose.reasoning.words.scoring import Parts, evidence
from diagnose.reasoning.words.shares import (
    FAMILY,
    JOINING,
    OF_SHARES,
    POLY_WORDS,
    POLYESTER,
    facts_beside,
    material_share,
    polyester_share,
)
from diagnose.reasoning.words.slips import allowed, distance
from diagnose.reasoning.words.spelling import Word, clauses, cut, taken
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.units import Unit

LEAST_CLOSE = 0.45  # how much of a name must be there when an item was asked for, if it is of one item only
NEARLY = 0.8  # of the most that a name covers, from which the share of polyester decides between names in passing
CLOSE = 0.79  # and in any case, or when it is named in passing
LONGEST_NAME = 40
WHOLE_NAME = 100.0  # the score of words that are a name of an item and nothing else
LONG_STEM = 5
BLENDED = "blend"
OF = frozenset("of in from".split())  # joining words before what a thing is made of
LIKE_BEFORE = frozenset("faux fake mock imitation artificial vegan like not no".split())
LIKE_AFTER = frozenset("look looking looks like effect style feel finish imitation free".split())
COATS = frozenset("coated coating coat backed backing laminated laminate covered".split())
COATED_BY = frozenset("with in".split())
MATERIALS = frozenset(
    "acrylic velvet denim glass metal steel brass copper iron plastic rubber wood wooden paper cardboard fleece felt "
    "satin slate stone ceramic porcelain tin enamel vinyl neoprene microfibre fur lace oak pine concrete clay "
    "wax".split()
)


@dataclass(frozen=True, slots=True)
class ItemMatch:
    """An item and the facts said beside it that differ from its own. ``id`` is "" where the words give away
    facts but no item that is known, or name goods of a stuff that is ``refused``, by its id. ``words``: where the item
    stands among the words (first, last + 1)."""

    id: str
    facts: Mapping[str, FactValue] = field(default_factory=dict)
    score: float = 0.0
    words: tuple[int, int] = (0, 0)
    refused: str = ""


@dataclass(frozen=True, slots=True)
class _Candidate:
    """An item by one of its names: what the name covers, how much of it is there, and how well its share of
    polyester agrees with the one told (0: just so, or none was told)."""

    item: str
    units: tuple[int, ...]
    covered: float
    share: float
    whole_share: float
    off: float

    @property
    def rank(self) -> tuple[float, float, float, float, str]:
        return (-round(self.covered, 6), self.off, -round(self.whole_share, 6), -round(self.share, 6), self.item)


def find_item(lexicon: Lexicon, text: str) -> ItemMatch | None:
    """The item a text names; None where it names none and gives no fact away. An id is taken as it stands, and so
    is a name, be it mistyped."""
    text = taken(text)
    words = clauses(text)
    known = lexicon.knowledge.items
    name = text if text in known else lexicon.item_names.get(whole_key(text), "")
    if item := name or _mistyped(lexicon, text):
        whole = _Candidate(item, (), WHOLE_NAME, 1.0, 1.0, 0.0)
        match = _with_facts(lexicon, text, words, whole, (0, len(words)))
        return replace(match, facts=_without_share(match.facts)) if name else match
    if stuffs := [lexicon.refused(words[place].text) for place in _refused(lexicon, words, asked=True)]:
        return ItemMatch("", words=(0, len(words)), refused=stuffs[0])
    units = _units(lexicon, text, words)
    told = _told_share(text, words)
    for chunk in _chunks(words, units):
        found = _best(lexicon, units, chunk, told, asked=True)
        if found:
            return _with_facts(lexicon, text, words, found, _where(found.units, units))
    return _facts_alone(lexicon, text, words)


def item_among(lexicon: Lexicon, text: str) -> ItemMatch | None:
    """The item named in passing anywhere in a text as it was taken. Of a refused stuff is what stands right after its
    name, or of which it is said to be."""
    words = clauses(text)
    units = _units(lexicon, text, words)
    share = polyester_share(text)
    for place in _refused(lexicon, words, asked=False):
        others = [unit for unit in units if not lexicon.refused(words[unit.words[0]].text)]
        goods = _best(lexicon, others, range(len(others)), share, asked=False)
        first, last = _where(goods.units, others) if goods else (0, 0)
        at_goods = first == place + 1 or (last == place - 1 and words[last].text in OF)
        if at_goods or (goods and _is_coat(words, place) and _clad(words, place, (first, last))):
            near = min(first, place), max(last, place + 1)
            return ItemMatch("", words=near, refused=lexicon.refused(words[place].text))
    if share is None:
        share = material_share([word.text for word in words])
    clauses_of = [
        [n for n, unit in enumerate(units) if unit.clause == clause] for clause in {unit.clause: 0 for unit in units}
    ]
    each = [_best(lexicon, units, range(own[0], own[-1] + 1), share, asked=False) for own in clauses_of]
    if found := min(filter(None, each), key=lambda candidate: candidate.rank[:4], default=None):
        near = _where(found.units, units)
        return _with_facts(lexicon, text, words, found, near)
    return _facts_alone(lexicon, text, words)


def _refused(lexicon: Lexicon, words: Sequence[Word], *, asked: bool) -> Iterator[int]:
    """Where a refused stuff stands for what a thing is made of, or coated with: no likeness of it, no blend with
    polyester and, where the thing was asked for, no part beside it ("with a silk lining")."""
    named = [place for place, word in enumerate(words) if lexicon.refused(word.text)]
    if not named or _in_a_name(lexicon, words):
        return
    blended = any(word.text in POLY_WORDS for word in words)
    beside, clause = False, 0
    for place, word in enumerate(words):
        before = words[place - 1].text if place else ""
        after = words[place + 1].text if place + 1 < len(words) else ""
        beside = asked and word.text not in OF if word.text in JOINING else beside and word.clause == clause
        clause = word.clause
        if place not in named or before in LIKE_BEFORE or after in LIKE_AFTER:
            continue
        if _is_coat(words, place) or not (beside or blended):
            yield place


def _is_coat(words: Sequence[Word], place: int) -> bool:
    """Whether a stuff is said to lie on another as a coat: "PVC-coated", "with a PVC backing", "coated with PVC"."""
    before = [word.text for word in words[max(0, place - 2) : place]]
    after = words[place + 1].text if place + 1 < len(words) else ""
    return after in COATS or (len(before) == 2 and before[0] in COATS and before[1] in COATED_BY)


def _clad(words: Sequence[Word], place: int, goods: tuple[int, int]) -> bool:
    """Whether a coat is that of the goods: nothing else stands between them."""
    between = words[place + 1 : goods[0]] if place < goods[0] else words[goods[1] : place]
    return all(word.text in COATS or word.text in POLY_WORDS or word.text in COATED_BY for word in between)


def _in_a_name(lexicon: Lexicon, words: Sequence[Word]) -> bool:
    """Whether the words hold a whole name of an item that speaks of such a stuff: "silk look scarf"."""
    said = f" {whole_key(' '.join(word.text for word in words))} "
    return any(f" {name} " in said for name in lexicon.item_names if any(map(lexicon.refused, name.split())))


def _units(lexicon: Lexicon, text: str, words: Sequence[Word]) -> list[Unit]:
    """The units that may be words of an item: nouns as they are, so that "patchy" is no patch."""
    found = []
    for unit in lexicon.literal_units(text):
        typed = [word.text for word in words[slice(*unit.words)]]
        if not unit.denied and all(lexicon.is_item_word(word) or not lexicon.speller.knows(word) for word in typed):
            found.append(unit)
        elif not unit.denied:
            found.append(replace(unit, features=((f"={typed[0]}", 1.0),)))
    return found


def _told_share(text: str, words: Sequence[Word]) -> int | None:
    """The share of polyester that is told in figures, else by the bare name of the material."""
    share = polyester_share(text)
    return material_share([word.text for word in words]) if share is None else share


def _chunks(words: Sequence[Word], units: Sequence[Unit]) -> Iterator[range]:
    """Runs of units without a joining word or the end of a clause between them."""
    first = 0
    for number in range(1, len(units) + 1):
        if number < len(units):
            between = words[units[number - 1].words[1] : units[number].words[0]]
            joined = units[number].clause == units[number - 1].clause
            if joined and all(word.text not in JOINING for word in between):
                continue
        yield range(first, number)
        first = number


def _best(lexicon: Lexicon, units: Sequence[Unit], chunk: range, told: int | None, *, asked: bool) -> _Candidate | None:
    """The item whose name covers most of a run of units. When asked, it must cover the last of them, the thing
    itself; and never may a material stand before it that is none of its own."""
    said = [n for n in chunk if units[n].features[0][0] not in OF_SHARES]
    if not said:
        return None
    candidates = []
    seen = evidence(lexicon.items, [units[number] for number in said])
    for name, parts in seen.found.items():
        if not asked and not _sure(parts, [units[number] for number in said]):
            continue
        candidate = _candidate(lexicon, name, parts, said, told)
        if candidate is None or candidate.share < (LEAST_CLOSE if asked else CLOSE):
            continue
        if not asked and all(units[number].features[0][0] in OF_THE_SHOP for number in candidate.units):
            continue
        if (asked and said[-1] not in candidate.units) or _other_material(
            lexicon, units, said, candidate.units, asked=asked
        ):
            continue
        candidates.append(candidate)
    if not candidates:
        return None
    much = NEARLY * max(candidate.covered for candidate in candidates)
    best = min(candidates, key=lambda each: (not asked and (each.covered < much, each.off), each.rank))
    rivals = {each.item for each in candidates if each.covered >= best.covered - 1e-6}
    return best if best.share >= CLOSE or len(rivals) == 1 else None


def _sure(parts: Parts, units: Sequence[Unit]) -> bool:
    """Whether a name is there by more than a short word that may have been mistyped."""
    return any(surety == 1.0 or len(units[unit].features[0][0]) >= LONG_STEM for unit, _, surety, _ in parts)


def _candidate(lexicon: Lexicon, name: int, parts: Parts, said: Sequence[int], told: int | None) -> _Candidate | None:
    """A name weighed without its words for the material's share."""
    index = lexicon.items
    best: dict[int, tuple[float, int]] = {}
    for unit, place, surety, _ in parts:
        best[place] = max(best.get(place, (0.0, 0)), (surety, -unit))
    whole = index.totals[name]
    proper = {place: weight for place, (said_as, weight) in enumerate(index.name(name)) if said_as[0] not in OF_SHARES}
    total = sum(proper.values())
    there = sum(proper[place] * surety for place, (surety, _) in best.items() if place in proper)
    if not total or not there:
        return None
    item = lexicon.knowledge.items[index.owners[index.owner[name]]]
    share = item.facts.get(POLYESTER)
    off = 0.0
    if told is not None:
        off = abs(told - share) if isinstance(share, int | float) and not isinstance(share, bool) else 1000.0
    units = tuple(sorted({said[-unit] for _, unit in best.values()}))
    return _Candidate(item.id, units, there, there / total, there / whole, off)


def _other_material(
    lexicon: Lexicon, units: Sequence[Unit], said: Sequence[int], covered: Sequence[int], *, asked: bool
) -> bool:
    first = said.index(min(covered))
    beside = said if asked else said[max(0, first - 1) : first]
    return any(
        number not in covered
        and units[number].clause == units[min(covered)].clause
        and _material(lexicon, units[number])
        for number in beside
    )


def _material(lexicon: Lexicon, unit: Unit) -> bool:
    features = [feature.removeprefix("=") for feature, _ in unit.features]
    return any(feature in MATERIAL_STEMS or lexicon.is_refused(feature) for feature in features)


OF_THE_SHOP = frozenset(map(stem, "top felt glass sleeve magnet clock table".split()))  # no goods when named in passing
MATERIAL_STEMS = MATERIALS | frozenset(map(stem, MATERIALS))


def _mistyped(lexicon: Lexicon, text: str) -> str:
    """The item of the name that a whole text is with a slip or two, blanks apart; "" where there is none."""
    words = cut(text)
    joined = "".join(words)
    stuff = any(map(lexicon.refused, words))  # "plastic cup" is no slip for a mug
    if not 5 <= len(joined) <= LONGEST_NAME or stuff or (len(words) == 1 and lexicon.speller.knows(joined)):
        return lexicon.joined_item_names.get(joined, "")
    if joined in lexicon.joined_item_names:
        return lexicon.joined_item_names[joined]
    best = (allowed(len(joined)) + 1, "")
    for name, item in lexicon.joined_item_names.items():
        if name[0] == joined[0] and _digits(name) == _digits(joined):
            best = min(best, (distance(joined, name, best[0]), item))
    return best[1]


def _digits(text: str) -> str:
    return "".join(sign for sign in text if sign.isdigit())


def _with_facts(
    lexicon: Lexicon, text: str, words: Sequence[Word], found: _Candidate, near: tuple[int, int]
) -> ItemMatch:
    item = lexicon.knowledge.items[found.item]
    said, near = facts_beside(text, [word.text for word in words], near, lexicon.knowledge.facts)
    facts = {fact: value for fact, value in said.items() if item.facts.get(fact) != value}
    if POLYESTER not in item.facts:
        facts.pop(POLYESTER, None)
    share = facts.get(POLYESTER)
    if isinstance(share, int) and 0 < share < 100 and item.facts.get(FAMILY) == "cloth":
        facts[FAMILY] = BLENDED
    return ItemMatch(item.id, facts, round(found.covered, 6), near)


def _without_share(facts: Mapping[str, FactValue]) -> dict[str, FactValue]:
    """Facts but for those of the material, which a name says of every such item."""
    return {fact: value for fact, value in facts.items() if fact not in (POLYESTER, FAMILY)}


def _facts_alone(lexicon: Lexicon, text: str, words: Sequence[Word]) -> ItemMatch | None:
    spelt = [word.text for word in words]
    said, _ = facts_beside(text, spelt, (0, len(spelt) if len(spelt) <= 3 else 0), lexicon.knowledge.facts)
    return ItemMatch("", said) if said else None


def _where(numbers: Sequence[int], units: Sequence[Unit]) -> tuple[int, int]:
    """The words from the first to the last of some units."""
    return min(units[n].words[0] for n in numbers), max(units[n].words[1] for n in numbers)
