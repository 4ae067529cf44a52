"""Casebooks to test with: each test that asks for a ``place`` runs on a SQLite file and on a PostgreSQL server."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from diagnose.casebook.store.casebook import Casebook, open_book
from tests.casebook import postgres


@pytest.fixture(scope="session")
def server() -> Iterator[postgres.Server]:
    if postgres.program("initdb") is None:
        if os.environ.get("CI"):
            pytest.fail(postgres.INSTALL)
        pytest.skip(postgres.INSTALL)
    with postgres.server() as running:
        yield running


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Where a new casebook may be kept."""
    if request.param == "sqlite":
        return str(tmp_path / "casebook.sqlite3")
    running: postgres.Server = request.getfixturevalue("server")
    return running.fresh()


@pytest.fixture
def book(place: str) -> Iterator[Casebook]:
    with open_book(place) as opened:
        yield opened
