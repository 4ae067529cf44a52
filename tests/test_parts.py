"""Every part that presslore is made of is listed with its licence, and each licence is one that serves there."""

import json
import re
from importlib.metadata import PackageMetadata, PackageNotFoundError, metadata

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.checkout import CHECKOUT
from tests.test_locks import LOCKS, entries

PAGE = CHECKOUT / "docs/parts.md"
PERMISSIVE = {
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "CC0-1.0",
    "ISC",
    "MIT",
    "MIT-0",
    "MIT-CMU",
    "PSF-2.0",
    "Zlib",
}
WEAK = {"LGPL-3.0-only", "MPL-2.0"}  # asks for changes to the part itself
STRONG = {"GPL-3.0-only"}  # asks for all that is shipped with it
SERVES = {
    "What the command runs on": PERMISSIVE | WEAK,
    "What the handbook is built with": PERMISSIVE | WEAK,
    "Lying in the handbook": PERMISSIVE | WEAK,
    "For tests and checks only": PERMISSIVE | WEAK | STRONG,
}
NPM = "npm:"  # how a package of npm is listed
# What packages say that do not use the short names, and which of those may be meant.
MEANT = {
    "2-clause BSD": {"BSD-2-Clause"},
    "Apache 2.0": {"Apache-2.0"},
    "Apache Software License": {"Apache-2.0"},
    "BSD": {"BSD-2-Clause", "BSD-3-Clause"},
    "BSD 2-Clause License": {"BSD-2-Clause"},
    "BSD 3-Clause License": {"BSD-3-Clause"},
    "BSD License": {"BSD-2-Clause", "BSD-3-Clause"},
    "GNU General Public License v3 (GPLv3)": {"GPL-3.0-only"},
    "GNU Lesser General Public License v3 (LGPLv3)": {"LGPL-3.0-only"},
    "ISC License (ISCL)": {"ISC"},
    "ISC license": {"ISC"},
    "MIT License": {"MIT"},
    "Mozilla Public License 2.0 (MPL 2.0)": {"MPL-2.0"},
    "Python Software Foundation License": {"PSF-2.0"},
    "The MIT License (MIT)": {"MIT"},
    "gpl v3": {"GPL-3.0-only"},
}


def listed() -> dict[str, dict[str, str]]:
    """The page's parts and their licences, by the heading they stand under."""
    found: dict[str, dict[str, str]] = {}
    for section in PAGE.read_text(encoding="utf-8").split("\n## ")[1:]:
        heading, _, body = section.partition("\n")
        rows = re.findall(r"^\| (\S+) \| (.+) \|$", body, re.MULTILINE)
        found[heading] = {part: licence for part, licence in rows if part not in ("package", "part", "---")}
    return found


def names(licence: str) -> set[str]:
    return set(re.split(r" AND | OR ", licence))


def locked(lock: str) -> set[str]:
    return {canonicalize_name(Requirement(entry.split("\\")[0]).name) for entry in entries(lock)}


ALL = {part: licence for section in listed().values() for part, licence in section.items()}
PACKAGES = sorted({*ALL} - {part for part in ALL if "/" in part or part.startswith(NPM)})


def test_every_locked_package_is_listed_and_no_other() -> None:
    assert set(PACKAGES) == {name for lock in LOCKS for name in locked(lock)}


def test_what_is_shipped_is_not_listed_as_for_tests_only() -> None:
    sections = listed()
    for lock, heading in zip(LOCKS, ["What the command runs on", "What the handbook is built with"], strict=False):
        assert locked(lock) <= {*sections[heading]}
    assert {"psycopg", "psycopg-binary"} <= {*sections["What the command runs on"]}  # the extra for a server
    assert sum(map(len, sections.values())) == len(ALL)  # each part once


@pytest.mark.parametrize("heading", SERVES)
def test_each_licence_serves_where_the_part_is_used(heading: str) -> None:
    assert {*listed()} == {*SERVES}
    bad = {part: licence for part, licence in listed()[heading].items() if not names(licence) <= SERVES[heading]}
    assert bad == {}


@pytest.mark.parametrize("package", PACKAGES)
def test_a_package_says_the_licence_that_is_listed(package: str) -> None:
    try:
        told = said(metadata(package))
    except PackageNotFoundError:
        pytest.skip(f"{package} is not installed")
    if isinstance(told, str):
        assert told == ALL[package]
        return
    assert told, "it says nothing of its licence"
    for meant in told:
        assert meant & names(ALL[package]), f"it says {meant}"
    assert names(ALL[package]) <= set().union(*told)


def said(package: PackageMetadata) -> str | list[set[str]]:
    """The licence as an expression; from older packages, what each of their words may mean. Some put the whole text
    of the licence where its name belongs."""
    if "License-Expression" in package:
        return str(package["License-Expression"])
    first, _, more = (str(package["License"]) if "License" in package else "").partition("\n")
    words = [] if first == "UNKNOWN" or (more and first not in MEANT) else [first]
    kinds = [kind.split(" :: ") for kind in package.get_all("Classifier") or [] if kind.startswith("License")]
    words += [kind[-1] for kind in kinds if kind[-1] != "OSI Approved"]
    return [MEANT.get(word, names(word)) for word in words if word]


def test_what_was_copied_into_the_checkout_is_listed_with_its_licence_beside_it() -> None:
    """Whatever brings a licence of its own, or is pressed into one line as others' scripts are, is not ours."""
    ours = {"docs/generated", "site"}
    found = {
        path.parent.relative_to(CHECKOUT).as_posix()
        for folder in ("diagnose", "docs", "kb", "rules", "tests")
        for pattern in ("LICEN[CS]E*", "*.min.js", "*.min.css")
        for path in (CHECKOUT / folder).rglob(pattern)
        if not any(path.is_relative_to(CHECKOUT / drawn) for drawn in ours)
    }
    assert found == {part for part in ALL if "/" in part}
    assert all((CHECKOUT / part / "LICENSE").is_file() for part in found)


def test_every_package_of_npm_is_listed_with_the_licence_it_says() -> None:
    """What is fetched for one kind of machine only is named after the package it belongs to, and goes with it."""
    lock = json.loads((CHECKOUT / "tests/javascript/package-lock.json").read_text(encoding="utf-8"))
    told = {path.rpartition("/")[2]: part for path, part in lock["packages"].items() if path}
    own = {f"{NPM}{name}": part["license"] for name, part in told.items() if not part.get("optional")}
    assert own == {part: licence for part, licence in ALL.items() if part.startswith(NPM)}
    assert {part["license"] for part in told.values()} == set(own.values())
