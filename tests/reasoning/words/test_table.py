"""The table's rows as they are read."""

from hypothesis import given
from hypothesis import strategies as st

from diagnose.reasoning.words import table
from diagnose.reasoning.words.table import BETWEEN, DIGITS, NOTHING, WEIGHTS, WordLayer
from tests.reasoning.words.layers import STEP, written

CLASSES = [f"class-{number}" for number in range(len(DIGITS))]
STEPS = st.integers(1, len(WEIGHTS))


@given(st.integers(0, len(DIGITS) - 1), st.dictionaries(st.integers(0, len(DIGITS) - 2), STEPS, min_size=1))
def test_a_row_is_read_as_it_was_written(below: int, own: dict[int, int]) -> None:
    one = WordLayer(CLASSES, [0.0] * len(CLASSES), {"pale": written(below, own)}, STEP, 0)
    assert one.row("pale") == (-below * STEP, {told: steps * STEP for told, steps in own.items()})


def test_a_class_far_behind_takes_more_digits() -> None:
    far = f"{DIGITS[0]}{DIGITS[1]}{DIGITS[3]}{WEIGHTS[1]}"
    one = WordLayer(["-"], [0.0], {"pale": far + BETWEEN}, STEP, 0)
    assert one.row("pale")[1] == {len(DIGITS) + 2: 2 * STEP}


def test_each_layer_has_its_own_part_of_a_row() -> None:
    row = written(1, {0: 2}) + written(3, {1: 4}).removesuffix(BETWEEN)
    parts = [WordLayer(["a", "b"], [0.0, 0.0], {"pale": row}, STEP, number).row("pale") for number in range(2)]
    assert parts == [(-STEP, {0: 2 * STEP}), (-3 * STEP, {1: 4 * STEP})]


def test_an_unknown_word_says_nothing_and_what_is_extra_is_added() -> None:
    one = WordLayer(["a", "b"], [0.0, 0.0], {}, STEP, 0, {"dull": {1: 2.0}})
    assert one.row("green") == NOTHING
    assert one.row("dull") == (0.0, {1: 2.0})


def test_every_row_that_ships_is_read_and_names_classes_that_there_are() -> None:
    ships = table.table()
    for one in (ships.sights, ships.answers):
        assert len(one.classes) == len(one.bias) == len(set(one.classes))
        rows = {feature: one.row(feature) for feature in one.rows}
        assert all(common <= 0.0 for common, _ in rows.values())
        assert {told for _, own in rows.values() for told in own} <= set(range(len(one.classes)))
        assert sum(bool(own) for _, own in rows.values()) > 1000
