"""What a shop works with: the knowledge, what the shop says of itself, and which of its files had to be left out."""

from dataclasses import dataclass, field

from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.problems import Place, Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """``left_out``: the places of the shop's files that could not be used; ``problems``: why, with ``more`` that are
    only counted."""

    knowledge: Knowledge
    shop: Shop = field(default_factory=Shop)
    left_out: tuple[Place, ...] = ()
    problems: tuple[Problem, ...] = ()
    more: int = 0
