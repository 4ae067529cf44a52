"""A plugin for pytest, loaded by ``tests.cover``: tells coverage which test is running, in this process and in those
that the test starts. What a shared fixture does is told by the fixture's name, because it is done once for many."""

import json
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from coverage import Coverage

from tests.cover.noted import NOTED

FIXTURE = "fixture "
NEEDS: dict[str, list[str]] = {}  # the shared fixtures of each test
TOOK: dict[str, float] = {}  # seconds


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[Any]:
    NEEDS[item.nodeid] = [_name(one) for all_of_it in _fixtures(item).values() for one in all_of_it if _shared(one)]
    _switch(item.nodeid)
    result = yield
    _switch("")
    return result


@pytest.hookimpl(wrapper=True)
def pytest_fixture_setup(fixturedef: Any, request: Any) -> Iterator[Any]:
    if not _shared(fixturedef):
        return (yield)
    _switch(FIXTURE + _name(fixturedef))
    result = yield
    _switch(request._pyfuncitem.nodeid)
    return result


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    TOOK[report.nodeid] = TOOK.get(report.nodeid, 0.0) + report.duration


def pytest_sessionfinish() -> None:
    """Each process of the run says what its tests need; how long they took, every process that hears of it."""
    path = Path(os.environ[NOTED]) / f"tests-{os.getpid()}.json"
    path.write_text(json.dumps({"needs": NEEDS, "took": TOOK}), encoding="utf-8")


def _fixtures(item: pytest.Item) -> dict[str, Any]:
    return dict(item._fixtureinfo.name2fixturedefs) if isinstance(item, pytest.Function) else {}


def _shared(fixture: Any) -> bool:
    return bool(fixture.scope != "function")


def _name(fixture: Any) -> str:
    return f"{fixture.baseid}::{fixture.argname}"


def _switch(context: str) -> None:
    measured = Coverage.current()
    if measured is None:
        return
    measured.switch_context(context)
    measured.config.context = context  # of the processes started from now on
    os.environ["COVERAGE_PROCESS_CONFIG"] = measured.config.serialize()
