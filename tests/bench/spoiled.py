"""Fifteen spoiled pieces, each with a hidden truth: what the dialogue asks and tries until it has found it.

Once opened with the person's words, once with what a perfect listener takes from them, so that hearing and reasoning
are told apart. What a foreman needs is the limit.
"""

from collections.abc import Iterator, Sequence
from statistics import mean, median

from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.words import lexicon
from tests.bench.rows import Row
from tests.spoiled.pieces import Piece, pieces
from tests.spoiled.replay import Opens, Played, handed_over_as_ids, heard, play

MEDIAN, MOST, FOUND = 4, 8, 13  # questions, questions of one piece, pieces


def run() -> Iterator[Row]:
    """A row for each piece and the sums, as heard and handed over as ids."""
    knowledge, shop = load(shipped_folder()), Shop()
    opens: dict[str, Opens] = {"as heard": heard(knowledge, lexicon(knowledge)), "by id": handed_over_as_ids}
    for way, opening in opens.items():
        played = [play(piece, opening(piece), knowledge, shop) for piece in pieces()]
        yield from (Row(f"spoiled, {way}: {each.piece.piece}", _told(each)) for each in played)
        yield from _summed(f"spoiled, {way}", played, knowledge)


def _told(played: Played) -> str:
    end = "found" if played.cured else "handed over" if played.handed_over else "given up"
    asked, tried = played.questions, len(played.fixes)
    return f"{asked:2} questions, {tried} fixes ({played.wrong} wrong), {played.minutes:3.0f} min, {end}"


def _summed(name: str, played: Sequence[Played], knowledge: Knowledge) -> Iterator[Row]:
    asked = [each.questions for each in played]
    middle, most, found = median(asked), max(asked), sum(each.cured for each in played)
    lost = sum(not each.cured and _in_the_rules(each.piece, knowledge) for each in played)
    at_once = sum(each.cured and not each.wrong for each in played)
    yield Row(f"{name}: median of questions", f"{middle:g}", f"at most {MEDIAN}", middle <= MEDIAN)
    yield Row(f"{name}: most questions", f"{most}", f"at most {MOST}", most <= MOST)
    yield Row(f"{name}: right cause found", f"{found} of {len(played)}", f"at least {FOUND}", found >= FOUND)
    yield Row(f"{name}: handed over or given up, though the cause is in the rules", f"{lost}", "none", not lost)
    yield Row(f"{name}: found without a wrong fix", f"{at_once} of {len(played)}")
    off = [each for piece in played for each in piece.foretold_too_many]
    near = sum(abs(each) <= 2 for each in off)
    yield Row(
        f"{name}: questions foretold within 2 of those asked", f"{near} of {len(off)}, {mean(off):+.1f} on average"
    )
    yield Row(f"{name}: median of minutes", f"{median(each.minutes for each in played):.0f}")


def _in_the_rules(piece: Piece, knowledge: Knowledge) -> bool:
    """Whether the rules know each of its causes to bring on something that is wrong with it."""
    known = {rule.cause for defect in piece.defects for rule in knowledge.defects[defect].rules}
    return {*piece.cured_by} <= known
