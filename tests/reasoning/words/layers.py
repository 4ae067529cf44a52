"""Small layers of the listener's table, made by hand."""

from collections.abc import Iterable, Mapping, Sequence

from diagnose.reasoning.words.table import BETWEEN, DIGITS, WEIGHTS, Layer
from diagnose.reasoning.words.tokens import Token

STEP = 0.5


def layer(classes: Sequence[str], bias: Sequence[float], rows: Mapping[str, tuple[int, Mapping[int, int]]]) -> Layer:
    """A layer of rows, each given as steps below 0 for every class and steps above that for some."""
    return Layer(classes, bias, {feature: written(*row) for feature, row in rows.items()}, STEP, 0)


def written(below: int, own: Mapping[int, int]) -> str:
    """A row of one layer as the table holds it."""
    signs, before = DIGITS[below], -1
    for told, steps in sorted(own.items()):
        signs += DIGITS[told - before] + WEIGHTS[steps - 1]
        before = told
    return signs + BETWEEN


def said(clauses: Iterable[str]) -> list[Token]:
    """The tokens of clauses, each word its own key."""
    words = [(word, number) for number, clause in enumerate(clauses) for word in clause.split()]
    return [Token(word, (), clause, place) for place, (word, clause) in enumerate(words)]
