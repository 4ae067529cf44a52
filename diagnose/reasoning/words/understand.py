"""What a person's own words say: defects seen and not seen, the item, outcomes of checks, and what is left."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from diagnose.reasoning.words.denials import Denial, denials
from diagnose.reasoning.words.exact import typed_ids
from diagnose.reasoning.words.items import ItemMatch, item_among
from diagnose.reasoning.words.lexicon import Lexicon
from diagnose.reasoning.words.outcomes import ToldOutcome, outcomes_among
from diagnose.reasoning.words.parts import TextPart, best_part, divide
from diagnose.reasoning.words.scoring import WordEvidence, evidence
from diagnose.reasoning.words.shares import OF_SHARES
from diagnose.reasoning.words.spelling import LONGEST_TEXT, Word, clauses, is_cut, taken
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.units import Unit

CERTAIN = 100.0  # the score of an id that was typed as such, and of a text that is a name and nothing else
LEAST_REST = 3.0  # what must speak for a defect beside words that tell something else
LEAST_ALONE = 4.0  # what those words must come to by themselves, where that is not so
LEAST_TOLD, SURELY_TOLD = 10.2, 13.0  # the score from which a text tells of a defect at all, and without doubt
LEAST_NAME = 0.7  # how much of a name must be there in between
LEAST_NEAR, LEAST_NEAR_NAME, NEAR = 6.0, 1.5, 0.86  # the same for a text that is nearly a name and little else
LEAST_BESIDE = 5.0  # the score from which a part tells of a defect beside one that does
LEAST_CLOSE = 0.12  # how nearly a run must be one of the names of a defect
A_NAME = 0.7  # how nearly it is taken for one even where its words also tell an outcome
LEAST_SPOKEN = 1.0  # how much a word says for a defect told elsewhere in the text, so as not to be left over
MOST_LEFT = 8
THE_REST = f"all after the first {LONGEST_TEXT:,} letters"


@dataclass(frozen=True, slots=True)
class Match:
    """A defect, how strongly the words speak for it, and the words that do."""

    id: str
    score: float
    because: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """``defects``: the best first. ``not_seen``: ids of defects that were denied. ``outcomes``: (check, outcome,
    score). ``not_understood``: runs of words that carry a meaning but led to nothing; at last ``THE_REST``, where the
    text was too long to be read to its end."""

    item: ItemMatch | None = None
    defects: tuple[Match, ...] = ()
    not_seen: tuple[str, ...] = ()
    outcomes: tuple[tuple[str, str, float], ...] = ()
    not_understood: tuple[str, ...] = ()


def understand(lexicon: Lexicon, text: str) -> Understood:
    """Everything the words say. Ids of defects in the text are always understood; a text that is a name of a
    defect, word for word, tells that defect and nothing else."""
    understood = _understood(lexicon, taken(text))
    if is_cut(text):
        return replace(understood, not_understood=(*understood.not_understood, THE_REST))
    return understood


def _understood(lexicon: Lexicon, text: str) -> Understood:
    words = clauses(text)
    units = lexicon.reader.typed(words, lexicon.speller)
    whole, item = lexicon.whole(text), item_among(lexicon, text)
    if whole:
        return Understood(item=item, defects=(_certain(whole, words),))
    ids = typed_ids(lexicon.knowledge.defects, text, words, units)
    units = [unit for unit in units if ids.words.isdisjoint(range(*unit.words))]
    denied = denials(lexicon.defects, units)
    seen = _kept(lexicon, units, denied)
    told = _not_of_defects(outcomes_among(lexicon, seen.units), seen)
    elsewhere = {word for each in told for word in each.words} | _of_item(lexicon, item, words)
    without = {each.owner for each in denied if each.owner is not None}
    aside = {number for number, unit in enumerate(seen.units) if elsewhere.issuperset(range(*unit.words))}
    seen = replace(seen, idle=aside.union(seen.idle))
    parts = _parts(seen, without, elsewhere)
    defects = _with_ids(ids.told, [_match(seen, part, words) for part in parts if _id(lexicon, part) not in ids.denied])
    named = {match.id for match in defects}
    names = dict.fromkeys([*ids.denied, *(lexicon.defects.owners[owner] for owner in sorted(without))])
    understood = defects or names or told or item
    return Understood(
        item=item,
        defects=tuple(defects),
        not_seen=tuple(name for name in names if name not in named),
        outcomes=tuple((each.check, each.outcome, each.score) for each in told),
        not_understood=_left(words, seen, parts, elsewhere) if understood else _all(words),
    )


def rank_defects(lexicon: Lexicon, text: str) -> list[Match]:
    """Every defect that anything in the text speaks for, the best first, ties by id; without what is denied."""
    text = taken(text)
    words = clauses(text)
    units = lexicon.reader.typed(words, lexicon.speller)
    ids = typed_ids(lexicon.knowledge.defects, text, words, units)
    units = [unit for unit in units if ids.words.isdisjoint(range(*unit.words))]
    denied = denials(lexicon.defects, units)
    seen = _kept(lexicon, units, denied)
    without = {lexicon.defects.owners[each.owner] for each in denied if each.owner is not None} | set(ids.denied)
    scores = seen.scores()
    matches = [_match(seen, TextPart(0, len(seen.units), owner, score), words) for owner, score in scores.items()]
    matches = [match for match in matches if match.id not in without]
    matches.sort(key=lambda match: (-match.score, match.id))
    whole = lexicon.whole(text)
    if whole:
        return [_certain(whole, words), *(match for match in matches if match.id != whole)]
    return _with_ids(ids.told, matches)


def _kept(lexicon: Lexicon, units: Sequence[Unit], denied: Sequence[Denial]) -> WordEvidence:
    """What the units say without those that only deny something."""
    left = {number for each in denied for number in each.units}
    return evidence(lexicon.defects, [unit for number, unit in enumerate(units) if number not in left])


def _certain(defect: str, words: Sequence[Word]) -> Match:
    return Match(defect, CERTAIN, (" ".join(word.text for word in words),))


def _id(lexicon: Lexicon, part: TextPart) -> str:
    return lexicon.defects.owners[part.owner]


def _of_item(lexicon: Lexicon, item: ItemMatch | None, words: Sequence[Word]) -> set[int]:
    """The words that name the item, with those beside them that say what it is made of; without a word before them
    that is a fault by itself ("pale mug")."""
    if item is None:
        return set()
    first, last = item.words
    while first < last - 1 and lexicon.whole(words[first].text):
        first += 1
    while first > 0 and _of_shares(words[first - 1]):
        first -= 1
    while last < len(words) and _of_shares(words[last]):
        last += 1
    return set(range(first, last))


def _of_shares(word: Word) -> bool:
    return word.text.isdecimal() or stem(word.text) in OF_SHARES


def _parts(seen: WordEvidence, without: Collection[int], elsewhere: Collection[int]) -> list[TextPart]:
    """The parts that speak of a defect, not merely of the item or the outcome of a check. Idle talk speaks of
    everything a little: where no part tells enough, only those stay that are names as such."""
    kept: dict[int, TextPart] = {}
    for part in divide(seen, without):
        for own in _own(seen, part, elsewhere, without):
            if seen.closeness(own.owner, own.first, own.last) >= LEAST_CLOSE:
                kept.setdefault(own.owner, own)
    told = any(_tells(seen, part) for part in kept.values())
    parts = [part for part in kept.values() if _is_name(seen, part) or (told and part.score >= LEAST_BESIDE)]
    return sorted(parts, key=lambda part: (-part.score, part.first))


def _tells(seen: WordEvidence, part: TextPart) -> bool:
    if part.score >= SURELY_TOLD or _is_name(seen, part):
        return True
    best = seen.value_of_best(part.owner, part.first, part.last)
    if part.score >= LEAST_TOLD and best >= LEAST_NAME:
        return True
    near = seen.closeness(part.owner, part.first, part.last)
    return part.score >= LEAST_NEAR and best >= LEAST_NEAR_NAME and near >= NEAR


def _is_name(seen: WordEvidence, part: TextPart) -> bool:
    return seen.is_name(part.owner, part.first, part.last)


def _own(seen: WordEvidence, part: TextPart, elsewhere: Collection[int], without: Collection[int]) -> list[TextPart]:
    """The part as it is, or what is left of it without the words that tell something else."""
    rest = [
        number
        for number in range(part.first, part.last)
        if not set(range(*seen.units[number].words)).issubset(elsewhere)
    ]
    if sum(seen.gains[number].get(part.owner, 0.0) for number in rest) >= LEAST_REST:
        return [part]
    alone = evidence(seen.index, [seen.units[number] for number in rest])
    best = best_part(alone, 0, len(rest), without)
    if best is None or best.score < LEAST_ALONE:
        return []
    return [TextPart(part.first, part.last, best.owner, best.score)]


def _not_of_defects(told: Sequence[ToldOutcome], seen: WordEvidence) -> list[ToldOutcome]:
    """The outcomes told by words that are not at the same time a name of a defect."""
    kept = []
    for each in told:
        numbers = [n for n, unit in enumerate(seen.units) if set(range(*unit.words)) & each.words]
        part = best_part(seen, numbers[0], numbers[-1] + 1) if numbers else None
        if part is None or seen.closeness(part.owner, part.first, part.last) < A_NAME:
            kept.append(each)
    return kept


def _match(seen: WordEvidence, part: TextPart, words: Sequence[Word]) -> Match:
    spoken = [seen.units[number] for number in seen.because(part.owner, part.first, part.last)]
    return Match(seen.index.owners[part.owner], round(part.score, 6), tuple(_typed(words, unit) for unit in spoken))


def _typed(words: Sequence[Word], unit: Unit) -> str:
    return " ".join(word.text for word in words[slice(*unit.words)])


def _with_ids(typed: Sequence[str], matches: Sequence[Match]) -> list[Match]:
    """The matches with the ids that were typed put first."""
    certain = [Match(name, CERTAIN, (name,)) for name in typed]
    return [*certain, *(match for match in matches if match.id not in typed)]


def _all(words: Sequence[Word]) -> tuple[str, ...]:
    return (" ".join(word.text for word in words),) if words else ()


def _left(
    words: Sequence[Word], seen: WordEvidence, parts: Sequence[TextPart], elsewhere: Collection[int]
) -> tuple[str, ...]:
    """Runs of words, within a clause, of which every unit led to nothing."""
    used = {number for part in parts for number in seen.because(part.owner, part.first, part.last)}
    used |= {n for n, gains in enumerate(seen.gains) for part in parts if gains.get(part.owner, 0.0) >= LEAST_SPOKEN}
    left: list[str] = []
    last: Unit | None = None
    for number, unit in enumerate(seen.units):
        if number in used or set(range(*unit.words)) & set(elsewhere):
            last = None
            continue
        if last is not None and last.clause == unit.clause:
            left[-1] += f" {_typed(words, unit)}"
        else:
            left.append(_typed(words, unit))
        last = unit
    return tuple(left[:MOST_LEFT])
