"""The lexicon of what ships, made once."""

import pytest

from diagnose.knowledge.loading import load, shipped_folder
from diagnose.reasoning.words import Lexicon, lexicon


@pytest.fixture(scope="session")
def words() -> Lexicon:
    return lexicon(load(shipped_folder()))
