"""The lock files hold all that pyproject.toml asks for, once each, and everything that asks for in turn, and for
each the digests of its files."""

import json
import re
import tomllib
from importlib.metadata import PackageNotFoundError, requires, version

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.checkout import CHECKOUT

LOCKS = ("requirements.lock", "requirements-site.lock", "requirements-dev.lock")


def lines(lock: str) -> list[str]:
    return (CHECKOUT / lock).read_text(encoding="utf-8").splitlines()


def pinned(*locks: str) -> dict[str, str]:
    """The version of each package in these locks that is wanted on this machine."""
    pins = [Requirement(entry.split("\\")[0]) for lock in locks for entry in entries(lock)]
    return {canonicalize_name(pin.name): exact(pin) for pin in pins if pin.marker is None or pin.marker.evaluate()}


def exact(pin: Requirement) -> str:
    (only,) = pin.specifier
    assert only.operator == "=="
    assert "*" not in only.version
    return only.version


def entries(lock: str) -> list[str]:
    """What stands in a lock for each package: a line with its version, and the lines below that belong to it."""
    text = "\n".join(line for line in lines(lock) if not line.startswith(("#", "-r")))
    return re.split(r"\n(?=\S)", text)


def asked() -> list[list[str]]:
    """What pyproject.toml asks for, by lock."""
    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))
    extras, groups = project["project"]["optional-dependencies"], project["dependency-groups"]
    return [project["project"]["dependencies"], extras["handbook"], groups["dev"]]


@pytest.mark.parametrize("number", range(len(LOCKS)))
def test_what_is_asked_for_is_pinned(number: int) -> None:
    have = pinned(*LOCKS[: number + 1])
    for line in asked()[number]:
        wanted = Requirement(line)
        assert wanted.specifier.contains(have[canonicalize_name(wanted.name)]), line


@pytest.mark.parametrize("number", range(len(LOCKS)))
def test_so_is_what_that_asks_for_in_turn(number: int) -> None:
    have = pinned(*LOCKS[: number + 1])
    left, needed = [Requirement(line) for wanted in asked()[: number + 1] for line in wanted], set()
    while left:
        wanted = left.pop()
        name = canonicalize_name(wanted.name)
        assert name in have, f"{name} is needed"
        assert wanted.specifier.contains(have[name], prereleases=True), f"{wanted}: {have[name]}"
        for extra in {"", *wanted.extras}:
            if (name, extra) not in needed:
                needed.add((name, extra))
                left += in_turn(name, extra, have[name])
    assert {name for name, _ in needed} == set(have)


def in_turn(name: str, extra: str, locked: str) -> list[Requirement]:
    """What an installed package asks for here."""
    try:
        if version(name) != locked:
            pytest.skip(f"{name} is installed in another version than is locked")
    except PackageNotFoundError:
        pytest.skip(f"{name} is not installed")
    found = [Requirement(line) for line in requires(name) or []]
    return [one for one in found if one.marker is None or one.marker.evaluate({"extra": extra})]


def test_nothing_is_pinned_twice() -> None:
    names = [canonicalize_name(line.split("==")[0]) for lock in LOCKS for line in entries(lock)]
    assert len(names) == len(set(names))


def test_each_lock_stands_on_the_one_before_and_names_no_place_to_fetch_from() -> None:
    for lock, before in zip(LOCKS, ("", *LOCKS), strict=False):
        assert [line for line in lines(lock) if line.startswith("-")] == ([f"-r {before}"] if before else [])
        assert not re.search(r"://|--index|--extra|@", "\n".join(lines(lock)))


@pytest.mark.parametrize("lock", LOCKS)
def test_each_package_is_locked_by_the_digests_of_its_files(lock: str) -> None:
    digests = r"( \\\n    --hash=sha256:[0-9a-f]{64})+"
    assert [entry for entry in entries(lock) if not re.fullmatch(r"[^\n\\]+" + digests, entry)] == []
    found = re.findall(r"sha256:(\w+)", "\n".join(entries(lock)))
    assert len(found) == len(set(found))  # each file belongs to one package


def test_the_tools_for_the_scripts_are_locked_by_their_digests_and_name_no_place_to_fetch_from() -> None:
    text = (CHECKOUT / "tests/javascript/package-lock.json").read_text(encoding="utf-8")
    packages = {path: part for path, part in json.loads(text)["packages"].items() if path}
    assert packages
    assert all(re.fullmatch(r"sha512-[\w+/]{86}==", part["integrity"]) for part in packages.values())
    assert not any("resolved" in part for part in packages.values())
