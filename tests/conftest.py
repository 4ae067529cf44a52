"""Options and fixtures for all tests."""

import signal

import pytest
from hypothesis import HealthCheck, settings

# Daily the same examples, and fewer of what takes long (see ``tests.trials``): what fails has been changed. No example
# is against the clock: other work on the machine is no fault.
CALM = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("daily", CALM, derandomize=True, database=None)
settings.register_profile("thorough", CALM)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--refresh",
        action="store_true",
        help="rewrite tests/cases, docs/command, README.md and tests/conformance as they come out now",
    )
    parser.addoption("--thorough", action="store_true", help="run the long trials as well (minutes)")


def pytest_configure(config: pytest.Config) -> None:
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:  # as of what a script starts in the background
        signal.signal(signal.SIGINT, signal.default_int_handler)  # tests press Ctrl-C in terminals of their own
    settings.load_profile("thorough" if config.getoption("--thorough") else "daily")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave the long trials out unless they are asked for."""
    if config.getoption("--thorough"):
        return
    long = [item for item in items if item.get_closest_marker("thorough")]
    config.hook.pytest_deselected(items=long)
    items[:] = [item for item in items if not item.get_closest_marker("thorough")]
