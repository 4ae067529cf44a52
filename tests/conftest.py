"""Options and fixtures for all tests."""

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--refresh",
        action="store_true",
        help="rewrite the dialogues in tests/cases, docs/command and README.md, and the records in tests/conformance, as they are now",
    )
    parser.addoption("--thorough", action="store_true", help="run the long trials as well (minutes)")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave the long trials out unless they are asked for."""
    if config.getoption("--thorough"):
        return
    long = [item for item in items if item.get_closest_marker("thorough")]
    config.hook.pytest_deselected(items=long)
    items[:] = [item for item in items if not item.get_closest_marker("thorough")]
