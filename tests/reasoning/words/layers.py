"""Small layers of the listener's table, made by hand."""

from collections.abc import Iterable, Mapping, Sequence

from hypothesis import strategies as st

from diagnose.reasoning.words.table import BETWEEN, DIGITS, WEIGHTS, WordLayer
from diagnose.reasoning.words.tokens import Spelt

STEP = 0.5
CLASSES = ["-", "pale", "doubled", "blurred"]
WORDS = ["weak", "twice", "soft", "print", "edge"]
STEPS = st.integers(1, 20)
OWN = st.dictionaries(st.integers(1, 3), STEPS, min_size=1, max_size=3)
FEATURES = st.sampled_from([*WORDS, *(f"{one} {other}" for one in WORDS for other in WORDS)])


def layer(
    classes: Sequence[str], bias: Sequence[float], rows: Mapping[str, tuple[int, Mapping[int, int]]]
) -> WordLayer:
    """A layer of rows, each given as steps below 0 for every class and steps above that for some."""
    return WordLayer(classes, bias, {feature: written(*row) for feature, row in rows.items()}, STEP, 0)


def written(below: int, own: Mapping[int, int]) -> str:
    """A row of one layer as the table holds it."""
    signs, before = DIGITS[below], -1
    for told, steps in sorted(own.items()):
        signs += DIGITS[told - before] + WEIGHTS[steps - 1]
        before = told
    return signs + BETWEEN


def said(clauses: Iterable[str]) -> list[Spelt]:
    """The tokens of clauses, each word its own key."""
    words = [(word, number) for number, clause in enumerate(clauses) for word in clause.split()]
    return [Spelt(word, (), clause, place) for place, (word, clause) in enumerate(words)]


LAYERS = st.builds(
    lambda bias, rows: layer(CLASSES, [0.0, *bias], rows),
    st.lists(st.floats(-3, 0), min_size=3, max_size=3),
    st.dictionaries(FEATURES, st.tuples(st.integers(0, 4), OWN), min_size=1, max_size=12),
)
CLAUSES = st.lists(st.lists(st.sampled_from(WORDS), min_size=1, max_size=5).map(" ".join), min_size=1, max_size=3)
SMALL = layer(
    CLASSES,
    [0.0, -1.0, -1.0, -1.0],
    {"weak": (0, {1: 8}), "twice": (0, {2: 12, 3: 4}), "soft": (0, {3: 6}), "print": (12, {1: 1})},
)
