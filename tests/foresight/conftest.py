"""What ships, read once."""

import pytest

from diagnose.cli.shop import shelf
from diagnose.knowledge.model import Knowledge


@pytest.fixture(scope="session")
def knowledge() -> Knowledge:
    return shelf.knowledge()
