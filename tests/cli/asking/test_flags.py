"""The flags of ``diagnose``: what they take, and how they refuse what they do not know."""

import json
from typing import Any

import pytest

from diagnose.cli import exits
from tests.cli.playing import PLAIN, play


def understood(*flags: str) -> dict[str, Any]:
    code, out, _ = play(["diagnose", *flags, "--json"])
    assert code in (exits.GOOD, exits.NOT_UNDERSTOOD)
    found: dict[str, Any] = json.loads(out)["understood"]
    return found


def refused(*flags: str) -> str:
    """What the refusal says, on standard error alone."""
    code, out, err = play(["diagnose", "--saw", "ghosting", *flags, "--json"])
    assert (code, out) == (exits.USAGE, "")
    return " ".join(err.split())


@pytest.mark.parametrize(
    ("flags", "says"),
    [
        (["--answer", "edges-under-magnifer=edges-sharp"], "Did you mean edges-under-magnifier?"),
        (["--answer", "edges-under-magnifier=edges-shrap"], "Did you mean edges-sharp?"),
        (["--answer", "edges-under-magnifier"], "expected CHECK=OUTCOME"),
        (["--answer", "="], "no check has the id ''"),
        (["--answer", "edges-under-magnifier=reads-low"], "no outcome of edges-under-magnifier has the id 'reads-low'"),
        (["--cannot-tell", "spent-sheat"], "Did you mean spent-sheet?"),
        (["--tried", "peel-in-one-stroka"], "Did you mean peel-in-one-stroke?"),
        (["--cannot-do", "peel-in-one-stroka"], "Did you mean peel-in-one-stroke?"),
        (["--tried", "ghosting"], "no fix has the id 'ghosting'"),
        (["--fact", "item.polyster=65"], "Did you mean item.polyester?"),
        (["--fact", "item.polyester"], "expected FACT=VALUE"),
        (["--fact", "item.polyester=most"], "expected a number from 0 to 100 %"),
        (["--fact", "item.polyester=-1"], "expected a number from 0 to 100 %"),
        (["--fact", "item.polyester=101"], "expected a number from 0 to 100 %"),
        (["--fact", "item.polyester=nan"], "expected a number from 0 to 100 %"),
        (["--fact", "item.polyester=1e999"], "expected a number from 0 to 100 %"),
        (["--fact", "item.thickness=9999999999"], "expected a number from 0 to 60 mm"),
        (["--fact", "item.coated=perhaps"], "expected yes or no"),
        (["--fact", "item.family=cloht"], "expected one of cloth, blend"),
        (["--fact", "item.family=cloht"], "Did you mean cloth?"),
        (["--fact", "press.kind=clamshel"], "Did you mean clamshell?"),
    ],
)
def test_what_is_not_known_is_refused_with_what_is(flags: list[str], says: str) -> None:
    assert says in refused(*flags)


def test_a_refusal_fits_a_narrow_screen() -> None:
    call = ["diagnose", "--fact", "item.polyester=101"]
    _, _, err = play(call, environment={**PLAIN, "COLUMNS": "40"})
    assert max(map(len, err.splitlines())) <= 40


def test_facts_are_taken_as_what_they_are() -> None:
    flags = ["item.polyester=65.5", "item.coated=No", "item.family=blend", "item.seams=true"]
    facts = understood(*(f"--fact={flag}" for flag in flags))["facts"]
    assert facts == {"item.polyester": 65.5, "item.coated": False, "item.family": "blend", "item.seams": True}


def test_a_fact_may_be_told_in_everyday_words() -> None:
    assert understood("--fact", "item.colour=Navy")["facts"] == {"item.colour": "dark"}


def test_a_fact_that_was_told_is_laid_over_those_of_the_item() -> None:
    facts = understood("--item", "tea-towel-65-35", "--fact", "item.polyester=50")["facts"]
    assert facts["item.polyester"] == 50
    assert facts["item.family"] == "blend"


def test_an_item_that_is_not_known_is_named_as_not_understood() -> None:
    found = understood("--item", "zxcvbn", "--saw", "ghosting")
    assert found["item"] is None
    assert found["not_understood"] == ["zxcvbn"]


def test_what_is_not_seen_may_be_told_as_a_name_or_as_a_denial() -> None:
    for words in ("ghosting", "ghost", "no ghost"):
        assert [defect["id"] for defect in understood("--saw", "pale", "--not-seen", words)["not_seen"]] == ["ghosting"]


def test_what_is_seen_outweighs_that_it_was_not() -> None:
    found = understood("--saw", "ghosting", "--not-seen", "ghosting")
    assert [defect["id"] for defect in found["defects"]] == ["ghosting"]
    assert found["not_seen"] == []


def test_words_not_understood_go_to_standard_error_in_text() -> None:
    code, out, err = play(["diagnose", "--saw", "ghosting", "--not-seen", "zxcvbn"])
    assert code == exits.GOOD
    assert "Ghosting" in out
    assert err == "Not understood: zxcvbn\n"


def test_of_words_too_long_to_be_read_it_is_said_where_reading_stopped() -> None:
    rest = "all after the first 2,000 letters"
    assert understood("--saw", "pale " + "x" * 3_000)["not_understood"][-1] == rest
    assert understood("--saw", "pale", "--item", "mug" + " for a friend" * 300)["not_understood"] == [rest]
    assert rest not in understood("--saw", "pale" + " " * 3_000)["not_understood"]
