"""How far work has come is told in shares that never go back and end at the whole."""

from diagnose.pace import paced, part


def test_items_come_in_turn_and_each_is_told() -> None:
    told: list[float] = []
    assert list(paced(["a", "b", "c", "d"], told.append)) == ["a", "b", "c", "d"]
    assert told == [0.0, 0.25, 0.5, 0.75, 1.0]


def test_no_items_are_the_whole_work() -> None:
    told: list[float] = []
    assert list(paced([], told.append)) == []
    assert told == [1.0]


def test_a_part_goes_from_one_share_to_another() -> None:
    told: list[float] = []
    list(paced(["a", "b"], part(told.append, 0.5, 1.0)))
    assert told == [0.5, 0.75, 1.0]
