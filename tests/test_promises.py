"""The page of promises names, for each of them, tests that are there and that run."""

import re

from tests.checkout import CHECKOUT

PAGE = CHECKOUT / "docs/promises.md"


def promises() -> dict[str, list[str]]:
    """The files of tests that are named below each heading."""
    sections = PAGE.read_text(encoding="utf-8").split("\n## ")[1:]
    return {each.partition("\n")[0]: re.findall(r"^- `(\S+)`$", each, re.MULTILINE) for each in sections}


def test_each_promise_is_held_by_tests_that_are_there() -> None:
    assert len(promises()) == 6
    for promise, files in promises().items():
        assert files, promise
        assert len(files) == len(set(files)), promise
        for file in files:
            path = CHECKOUT / file
            assert path.is_file(), f"{promise}: {file} is not there"
            assert path.name.startswith("test_"), f"{promise}: {file} is not run"
            assert re.search(r"^def test_", path.read_text(encoding="utf-8"), re.MULTILINE), f"{file} tests nothing"


def test_every_list_on_the_page_is_one_of_tests() -> None:
    lines = [line for line in PAGE.read_text(encoding="utf-8").splitlines() if line.startswith("-")]
    assert len(lines) == sum(map(len, promises().values()))
