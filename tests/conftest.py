"""Options and fixtures for all tests."""

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--refresh",
        action="store_true",
        help="rewrite the dialogues in tests/cases and README.md from what is printed now",
    )
