"""A person's own words: matched to defects, to items and to outcomes of checks."""

from diagnose.reasoning.words.items import ItemMatch, find_item
from diagnose.reasoning.words.lexicon import Lexicon
from diagnose.reasoning.words.outcomes import answer
from diagnose.reasoning.words.ready import lexicon
from diagnose.reasoning.words.slips import nearest
from diagnose.reasoning.words.spelling import is_cut
from diagnose.reasoning.words.understand import THE_REST, Match, Understood, rank_defects, understand

__all__ = [
    "THE_REST",
    "ItemMatch",
    "Lexicon",
    "Match",
    "Understood",
    "answer",
    "find_item",
    "is_cut",
    "lexicon",
    "nearest",
    "rank_defects",
    "understand",
]
