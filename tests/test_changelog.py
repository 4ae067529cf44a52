"""The changelog has a section for each version, the newest first and that of the package, each with its day."""

import re
import subprocess
from datetime import date

import diagnose
from tests.checkout import CHECKOUT

PAGE = CHECKOUT / "CHANGELOG.md"
HEADING = re.compile(r"^## (?P<version>\d+\.\d+\.\d+) \((?P<day>\d{4}-\d\d-\d\d|unreleased)\)$")


def sections() -> list[tuple[str, str, str]]:
    """The version, day and text of each section."""
    found = []
    for section in PAGE.read_text(encoding="utf-8").split("\n## ")[1:]:
        heading, _, body = f"## {section}".partition("\n")
        match = HEADING.match(heading)
        assert match, f"{heading}: expected ## 1.2.3 (2026-11-30), or (unreleased)"
        found.append((match["version"], match["day"], body))
    return found


def test_the_newest_section_is_that_of_the_package() -> None:
    assert sections()[0][0] == diagnose.__version__


def test_versions_and_days_go_down_and_only_the_newest_may_be_without() -> None:
    versions = [tuple(map(int, version.split("."))) for version, _, _ in sections()]
    assert versions == sorted(set(versions), reverse=True)
    days = [date.fromisoformat(day) for number, (_, day, _) in enumerate(sections()) if number or day != "unreleased"]
    assert days == sorted(days, reverse=True)


def test_every_section_says_something_in_plain_lines() -> None:
    for version, _, body in sections():
        assert re.search(r"^- \S", body, re.MULTILINE), version


def test_what_is_tagged_has_its_day() -> None:
    tags = subprocess.run(["git", "tag"], cwd=CHECKOUT, capture_output=True, text=True).stdout.split()
    assert [version for version, day, _ in sections() if day == "unreleased" and f"v{version}" in tags] == []
