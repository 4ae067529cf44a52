"""Every test of the command line has folders of its own for sessions and casebook, and finds no shop by chance."""

from pathlib import Path

import pytest

from diagnose.cli.options import BOOK_VARIABLE
from diagnose.cli.shop import shelf
from diagnose.knowledge.model import Knowledge
from diagnose.reasoning import words


@pytest.fixture(scope="session")
def knowledge() -> Knowledge:
    return shelf.knowledge()


@pytest.fixture(scope="session")
def lexicon(knowledge: Knowledge) -> words.Lexicon:
    return words.lexicon(knowledge)


@pytest.fixture(autouse=True)
def _own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    for variable in (shelf.SHOP_VARIABLE, BOOK_VARIABLE):
        monkeypatch.delenv(variable, raising=False)
    (tmp_path / "bench").mkdir()
    monkeypatch.chdir(tmp_path / "bench")


@pytest.fixture(autouse=True)
def _read_once(knowledge: Knowledge, lexicon: words.Lexicon, monkeypatch: pytest.MonkeyPatch) -> None:
    """Many calls in one process need not read the same knowledge again."""
    made = words.lexicon
    monkeypatch.setattr(shelf, "shipped", lambda: knowledge)
    monkeypatch.setattr(words, "lexicon", lambda known: lexicon if known is knowledge else made(known))
