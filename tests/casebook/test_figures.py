"""Figures in the casebook: kept with the case, part of what it shows, counted in looking back and in a replay."""

from pathlib import Path

import pytest
from sqlalchemy import create_engine, select

from diagnose.casebook.case import from_plain, to_plain
from diagnose.casebook.learning.jobs import Jobs
from diagnose.casebook.learning.numbers import parameters
from diagnose.casebook.looking_back import looked_back
from diagnose.casebook.replaying import alike, minutes_to_cure
from diagnose.casebook.store import migrations as store_migrations
from diagnose.casebook.store import tables as store_tables
from diagnose.casebook.store.casebook import open_book
from diagnose.casebook.store.exporting import table
from diagnose.casebook.store.rows import pattern_of
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, Cured, Measured, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load
from diagnose.knowledge.shop import Shop
from tests.casebook.learning.wired import gather
from tests.casebook.some import a_case

KNOWLEDGE = load()
START = Consultation(KNOWLEDGE, Shop(), Session())
PALE: tuple[Move, ...] = (Pressed("cushion-cover"), Saw(("faint-colour",)))
COOL = Measured({"set": 196.0, "probe": 186.0}, "probe-the-platen")
DONE = Cured("set-heat-by-probe")


def test_a_case_with_figures_comes_back_exactly_and_says_so() -> None:
    case = a_case(1, [*PALE, COOL, DONE])
    assert to_plain(case)["version"] == 2
    assert from_plain(to_plain(case)) == case
    assert to_plain(a_case(2, [*PALE, DONE]))["version"] == 1


def test_what_was_measured_is_part_of_what_a_case_shows() -> None:
    one = pattern_of(a_case(1, [*PALE, COOL, DONE]))
    same = pattern_of(a_case(2, [*PALE, Measured({"probe": 186}), Measured({"set": 196}), DONE]))
    other = pattern_of(a_case(3, [*PALE, Measured({"set": 196.0, "probe": 190.0}), DONE]))
    assert one.digest == same.digest != other.digest
    later = pattern_of(a_case(4, [*PALE, TriedFix("tape-two-edges", "same"), COOL, DONE]))
    assert {(row["name"], row["period"], row["value"]) for row in later.rows["figure"]} == {
        ("probe", 1, 186.0),
        ("set", 1, 196.0),
    }


def test_figures_go_through_the_casebook(tmp_path: Path) -> None:
    case = a_case(1, [*PALE, COOL, DONE])
    with open_book(str(tmp_path / "book.db")) as book:
        book.add([case])
        assert book.get(case.id) == case
        [(representative, count)] = book.patterns()
        assert (representative.session.figures, count) == (((0, {"probe": 186.0, "set": 196.0}),), 1)
    with create_engine(f"sqlite:///{tmp_path / 'book.db'}").connect() as connection:
        rows = connection.execute(select(store_tables.figure.c.name, store_tables.figure.c.value)).all()
    assert sorted(map(tuple, rows)) == [("probe", 186.0), ("set", 196.0)]


def test_a_casebook_of_before_gains_what_figures_need(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place, old = str(tmp_path / "book.db"), a_case(1, [*PALE, DONE])
    published = store_migrations.MIGRATIONS[:1]
    monkeypatch.setattr(store_migrations, "MIGRATIONS", published)
    monkeypatch.setattr("diagnose.casebook.store.casebook.MIGRATIONS", published)
    open_book(place).close()
    monkeypatch.undo()
    with open_book(place) as book:
        book.add([old, a_case(2, [*PALE, COOL, DONE])])
        assert book.count() == 2
        assert book.get(old.id) == old


def test_looking_back_counts_figures() -> None:
    plain, measured = a_case(1, [*PALE]), a_case(2, [*PALE, COOL])
    before, after = looked_back(START, plain), looked_back(START, measured)
    assert before is not None
    assert after is not None
    assert after.causes["platen-runs-cool"] > 4 * before.causes["platen-runs-cool"]


def test_a_replay_answers_a_check_with_the_figure_that_answered_it() -> None:
    figure, word = a_case(1, [*PALE, COOL, DONE]), a_case(2, [*PALE, Answered("probe-the-platen", "reads-low"), DONE])
    assert minutes_to_cure(START, figure) is not None
    told = a_case(3, [*PALE, Measured(COOL.figures), DONE])
    first, known = minutes_to_cure(START, figure), minutes_to_cure(START, told)
    assert first is not None
    assert known is not None
    assert known < first  # told beforehand, the probe need not be fetched
    assert len({alike(figure), alike(word), alike(told)}) == 3


def test_a_table_tells_the_figures() -> None:
    head, row = table([a_case(1, [*PALE, COOL, DONE])])
    assert dict(zip(head.strip().split(","), row.strip().split(","), strict=True))["figures"] == "set=196 probe=186"


def test_learning_weighs_figures() -> None:
    numbers = parameters(KNOWLEDGE)
    place = list(KNOWLEDGE.causes).index("platen-runs-cool")

    def there(*moves: Move) -> float:
        material = gather([(a_case(1, [*PALE, *moves]), 1)], Jobs(KNOWLEDGE, numbers))
        expected = material.expect(numbers.shipped, material.nets.turns_up)
        return float(expected.there[:, place].sum())

    assert there(COOL) > 4 * there()
    assert there(COOL, Answered("probe-the-platen", "agrees")) == pytest.approx(there(COOL))
