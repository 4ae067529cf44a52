"""A server that is busy, slow, frozen or of the wrong kind is given up in plain words, and what was kept stays."""

from contextlib import ExitStack
from time import monotonic

import pytest
from sqlalchemy import create_engine, event

from diagnose.casebook.store import engine as store_engine
from diagnose.casebook.store.casebook import open_book
from diagnose.casebook.store.server import LOCK
from diagnose.problems import PressloreError
from tests.casebook.postgres import Server
from tests.casebook.some import some_cases

SHORT = 4.0  # seconds instead of WAIT
GIVEN_UP = 120.0  # seconds: far more than SHORT, far less than for ever


@pytest.fixture
def place(server: Server, monkeypatch: pytest.MonkeyPatch) -> str:
    """A casebook with cases on a server that is waited for a short time only."""
    address = server.fresh()
    with open_book(address) as book:
        book.add(some_cases(5))
    monkeypatch.setattr(store_engine, "WAIT", SHORT)
    return address


def test_the_usual_wait_is_that_of_a_file() -> None:
    assert store_engine.WAIT == 30.0


def test_a_server_that_freezes_is_given_up(server: Server, place: str) -> None:
    with open_book(place) as book:
        assert book.count() == 5
        began = monotonic()
        with server.frozen(), pytest.raises(PressloreError, match="server has stopped answering: look after it"):
            book.add(some_cases(9))
        assert monotonic() - began < GIVEN_UP
        assert book.add(some_cases(9)) == 4  # on a connection of its own
        assert list(book.cases()) == some_cases(9)


def test_a_server_that_freezes_over_the_last_word_may_have_kept_it(server: Server, place: str) -> None:
    with open_book(place) as book, ExitStack() as frozen:
        book.count()
        event.listen(book.database.engine, "commit", lambda _: frozen.enter_context(server.frozen()))
        with pytest.raises(
            PressloreError, match=r"it may be there, or not\. Look .*add it again only if it is missing"
        ):
            book.add(some_cases(9))
        frozen.close()
    with open_book(place) as book:
        assert book.count() in (5, 9)
        book.add(some_cases(9))
        assert list(book.cases()) == some_cases(9)  # once each


def test_a_server_that_freezes_while_it_is_read_is_given_up(server: Server, place: str) -> None:
    with open_book(place) as book:
        book.add(some_cases(1500))
        cases, began = book.cases(), monotonic()
        assert next(cases) == some_cases(1)[0]
        with server.frozen(), pytest.raises(PressloreError, match="stopped answering"):
            list(cases)
        assert monotonic() - began < GIVEN_UP


def test_a_server_that_is_frozen_already_is_given_up(server: Server, place: str) -> None:
    began = monotonic()
    with server.frozen(), pytest.raises(PressloreError, match="server cannot be reached"):
        open_book(place)
    assert monotonic() - began < GIVEN_UP


def test_who_waits_too_long_for_another_writer_is_told(server: Server, place: str) -> None:
    other = create_engine(place)
    with open_book(place) as book, other.begin() as connection:
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({LOCK})")
        with pytest.raises(PressloreError, match="another program has kept the casebook busy"):
            book.add(some_cases(9))
        assert book.count() == 5
    other.dispose()


def test_a_question_that_takes_too_long_is_broken_off(place: str) -> None:
    with (
        open_book(place) as book,
        pytest.raises(PressloreError, match="server took too long over this"),
        book.database.reading() as connection,
    ):
        connection.exec_driver_sql("SELECT pg_sleep(60)")


def test_a_connection_is_noticed_when_it_is_dead(place: str) -> None:
    with open_book(place) as book, book.database.reading() as connection:
        told = connection.connection.driver_connection.info.get_parameters()  # type: ignore[union-attr]
        shown = {
            name: connection.exec_driver_sql(f"SHOW {name}").scalar() for name in ("statement_timeout", "lock_timeout")
        }
    assert shown == {"statement_timeout": "3600ms", "lock_timeout": "3200ms"}
    assert told["keepalives_count"] == "3"
    assert told["tcp_user_timeout"] == "4000"
    assert told["connect_timeout"] == "4"


def test_what_the_address_says_of_the_connection_counts(place: str) -> None:
    with open_book(f"{place}&connect_timeout=7&application_name=bench") as book, book.database.reading() as connection:
        assert connection.exec_driver_sql("SHOW application_name").scalar() == "bench"
        told = connection.connection.driver_connection.info.get_parameters()  # type: ignore[union-attr]
        assert told["connect_timeout"] == "7"


def test_a_database_that_tells_no_letters_is_refused(server: Server) -> None:
    address = server.fresh("ENCODING 'SQL_ASCII' LC_COLLATE 'C' LC_CTYPE 'C' TEMPLATE template0")
    with pytest.raises(PressloreError, match=r"keeps text as SQL_ASCII.*expected UTF8 - make one: createdb"):
        open_book(address)


def test_letters_that_a_database_has_none_for_are_told(server: Server) -> None:
    from tests.casebook.some import a_case

    address = server.fresh("ENCODING 'LATIN1' LC_COLLATE 'C' LC_CTYPE 'C' TEMPLATE template0")
    with open_book(address) as book:
        assert book.add([a_case(1, [], press="Prüfstück")]) == 1
        assert next(book.cases()).press == "Prüfstück"
        with pytest.raises(PressloreError, match="cannot keep these letters"):
            book.add([a_case(2, [], press="\N{GREEK SMALL LETTER ALPHA}")])
        assert book.count() == 1
