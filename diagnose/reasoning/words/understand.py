"""What a person's own words say: defects seen and not seen, the item, outcomes of checks, and what is left."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from diagnose.reasoning.words.denials import Denial, denials
from diagnose.reasoning.words.items import ItemMatch, item_among
from diagnose.reasoning.words.lexicon import Lexicon
from diagnose.reasoning.words.outcomes import Told, outcomes_among
from diagnose.reasoning.words.parts import Part, best_part, divide
from diagnose.reasoning.words.scoring import Evidence, evidence
from diagnose.reasoning.words.spelling import Word, clauses
from diagnose.reasoning.words.units import Unit

CERTAIN = 100.0  # the score of an id that was typed as such
LEAST_REST = 3.0  # what must speak for a defect beside words that tell something else
LEAST_ALONE = 4.0  # what those words must come to by themselves, where that is not so
LEAST_CLOSE = 0.12  # how nearly a run must be one of the names of a defect
A_NAME = 0.7  # how nearly it is taken for one even where its words also tell an outcome
MOST_LEFT = 8


@dataclass(frozen=True, slots=True)
class Match:
    """A defect, how strongly the words speak for it, and the words that do."""

    id: str
    score: float
    because: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """``defects``: the best first. ``not_seen``: ids of defects that were denied. ``outcomes``: (check, outcome,
    score). ``not_understood``: runs of words that carry a meaning but led to nothing."""

    item: ItemMatch | None = None
    defects: tuple[Match, ...] = ()
    not_seen: tuple[str, ...] = ()
    outcomes: tuple[tuple[str, str, float], ...] = ()
    not_understood: tuple[str, ...] = ()


def understand(lexicon: Lexicon, text: str) -> Understood:
    """Everything the words say. Ids of defects in the text are always understood."""
    words = clauses(text)
    seen = evidence(lexicon.defects, lexicon.reader.typed(words, lexicon.speller))
    item = item_among(lexicon, text)
    told = _not_of_defects(outcomes_among(lexicon, seen.units), seen)
    denied = denials(lexicon.defects, seen.units)
    elsewhere = {word for each in told for word in each.words} | set(range(*item.words) if item else ())
    parts = _parts(seen, denied, elsewhere)
    defects = _with_ids(_ids(lexicon, text), [_match(seen, part, words) for part in parts])
    named = {match.id for match in defects}
    names = dict.fromkeys(lexicon.defects.owners[each.owner] for each in denied)
    return Understood(
        item=item,
        defects=tuple(defects),
        not_seen=tuple(name for name in names if name not in named),
        outcomes=tuple((each.check, each.outcome, each.score) for each in told),
        not_understood=_left(words, seen, parts, elsewhere),
    )


def rank_defects(lexicon: Lexicon, text: str) -> list[Match]:
    """Every defect that anything in the text speaks for, the best first, ties by id."""
    words = clauses(text)
    seen = evidence(lexicon.defects, lexicon.reader.typed(words, lexicon.speller))
    scores = seen.scores()
    matches = [_match(seen, Part(0, len(seen.units), owner, score), words) for owner, score in scores.items()]
    matches.sort(key=lambda match: (-match.score, match.id))
    return _with_ids(_ids(lexicon, text), matches)


def _parts(seen: Evidence, denied: Sequence[Denial], elsewhere: Collection[int]) -> list[Part]:
    """The parts that speak of a defect, not merely of the item or the outcome of a check, nor by denial alone."""
    without = {denial.owner for denial in denied}
    denying = {number for denial in denied for number in denial.units}
    kept: dict[int, Part] = {}
    for part in divide(seen, without):
        for own in _own(seen, part, elsewhere, without):
            spoken = seen.because(own.owner, own.first, own.last)
            close = seen.closeness(own.owner, own.first, own.last) >= LEAST_CLOSE
            if close and not denying.issuperset(spoken):
                kept.setdefault(own.owner, own)
    return sorted(kept.values(), key=lambda part: (-part.score, part.first))


def _own(seen: Evidence, part: Part, elsewhere: Collection[int], without: Collection[int]) -> list[Part]:
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
    return [Part(part.first, part.last, best.owner, best.score)]


def _not_of_defects(told: Sequence[Told], seen: Evidence) -> list[Told]:
    """The outcomes told by words that are not at the same time a name of a defect."""
    kept = []
    for each in told:
        numbers = [n for n, unit in enumerate(seen.units) if set(range(*unit.words)) & each.words]
        part = best_part(seen, numbers[0], numbers[-1] + 1) if numbers else None
        if part is None or seen.closeness(part.owner, part.first, part.last) < A_NAME:
            kept.append(each)
    return kept


def _match(seen: Evidence, part: Part, words: Sequence[Word]) -> Match:
    spoken = [seen.units[number] for number in seen.because(part.owner, part.first, part.last)]
    return Match(seen.index.owners[part.owner], round(part.score, 6), tuple(_typed(words, unit) for unit in spoken))


def _typed(words: Sequence[Word], unit: Unit) -> str:
    return " ".join(word.text for word in words[slice(*unit.words)])


def _ids(lexicon: Lexicon, text: str) -> list[str]:
    """The ids of defects that stand in the text as such."""
    pieces = [piece.strip(".,;:!?()\"'") for piece in text.lower().split()]
    return list(dict.fromkeys(piece for piece in pieces if piece in lexicon.knowledge.defects))


def _with_ids(typed: Sequence[str], matches: Sequence[Match]) -> list[Match]:
    """The matches with the ids that were typed put first."""
    certain = [Match(name, CERTAIN, (name,)) for name in typed]
    return [*certain, *(match for match in matches if match.id not in typed)]


def _left(words: Sequence[Word], seen: Evidence, parts: Sequence[Part], elsewhere: Collection[int]) -> tuple[str, ...]:
    """Runs of words, within a clause, of which every unit led to nothing."""
    used = {number for part in parts for number in seen.because(part.owner, part.first, part.last)}
    left: list[str] = []
    last: Unit | None = None
    for number, unit in enumerate(seen.units):
        if unit.denied or number in used or set(range(*unit.words)) & set(elsewhere):
            last = None
            continue
        if last is not None and last.clause == unit.clause:
            left[-1] += f" {_typed(words, unit)}"
        else:
            left.append(_typed(words, unit))
        last = unit
    return tuple(left[:MOST_LEFT])
