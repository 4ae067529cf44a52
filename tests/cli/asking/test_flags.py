"""The flags of ``diagnose``: what they take, and how they refuse what they do not know."""

import json
from typing import Any

import jsonschema
import pytest

from diagnose.cli import exits
from diagnose.cli.asking import flags
from diagnose.dialogue.hearing import Heard
from diagnose.dialogue.moves import Saw
from diagnose.knowledge.model import Knowledge
from diagnose.reasoning.words import Lexicon
from tests.cli.diagnosis.test_consulting import SCHEMA
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


# --- what was heard, echoed ---


def test_a_message_tells_item_sight_and_figures_each_with_its_words() -> None:
    told = understood("mug, pale and doubled, 350F for 40 seconds")
    assert told["item"]["id"] == "mug"
    assert [defect["id"] for defect in told["defects"]] == ["faint-colour", "ghosting"]
    assert {name: round(value) for name, value in told["figures"].items()} == {"set": 177, "dwell": 40}
    assert told["words"]["defect ghosting"] == "doubled"
    assert told["words"]["figure set"] == "350F"
    assert told["not_understood"] == []


def test_a_message_in_several_arguments_is_one() -> None:
    assert understood("mug,", "pale", "350F") == understood("mug, pale 350F")


def test_what_was_heard_of_a_message_stands_before_the_diagnosis() -> None:
    _, out, _ = play(["diagnose", "mug, pale and doubled, 350F for 40 seconds"])
    heard, _, rest = out.partition("─")
    assert heard.startswith("Heard:\n- Item: Mug, ceramic, coated\n")
    assert "The temperature on the display: 177 °C (350 °F)" in heard
    assert "Mug, ceramic, coated · Faint colour · Ghosting" in rest


def test_goods_are_told_with_their_colour_and_share() -> None:
    told = understood("red T-shirt, 85 % polyester, letters doubled")
    assert told["facts"]["item.polyester"] == 85
    assert told["words"]["fact item.colour"] == "red"
    _, out, _ = play(["diagnose", "red T-shirt, 85 % polyester, letters doubled"])
    assert "Item: T-shirt, red, 85 % polyester" in out
    assert "100 %" not in out.partition("─")[0]


def test_words_that_name_no_defect_lead_to_the_nearest_or_to_the_list() -> None:
    told = understood("--saw", "second copy")
    assert [defect["id"] for defect in told["nearest"]["defects"]] or told["defects"]
    code, _, err = play(["diagnose", "--saw", "qwert"])
    assert code == exits.NOT_UNDERSTOOD
    assert "presslore defects lists all that I know." in err


def test_the_nearest_defects_are_offered_with_their_flags() -> None:
    _, _, err = play(["diagnose", "--saw", "it is not nice"])
    assert "  --saw faint-colour   Faint colour\n" in err.split("The nearest that I know:\n")[1]


def test_an_unknown_item_leads_to_the_nearest_or_to_what_it_is_like() -> None:
    told = understood("--item", "hardbord coastr big", "--saw", "ghosting")
    assert told["nearest"]["items"][0]["id"] == "hardboard-coaster"
    _, _, err = play(["diagnose", "--item", "hardbord coastr big", "--saw", "ghosting"])
    assert "--item hardboard-coaster   " in err
    _, _, err = play(["diagnose", "--item", "garden gnome", "--saw", "ghosting"])
    assert "Say what it is like: --fact item.hard=yes or no" in err


def test_a_cause_that_was_named_is_evidence_and_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    def named(knowledge: Knowledge, lexicon: Lexicon, words: str) -> Heard:
        return Heard(defects=("ghosting",), causes=("sheet-not-held",), unsure=((Saw(("haze",)),),))

    plain = json.loads(play(["diagnose", "--saw", "ghosting", "--json"])[1])
    monkeypatch.setattr(flags, "hear", named)
    whole = json.loads(play(["diagnose", "--saw", "ghosting, not taped", "--json"])[1])
    assert [cause["id"] for cause in whole["understood"]["causes"]] == ["sheet-not-held"]
    assert whole["understood"]["unsure"] == [[{"move": "saw", "defects": ["haze"]}]]
    assert whole["causes"][0]["id"] == "sheet-not-held" != plain["causes"][0]["id"]
    assert {"named"} <= {reason["kind"] for reason in whole["causes"][0]["for"]}
    jsonschema.validate(whole, SCHEMA)


def test_a_message_that_cries_for_help_is_told_so_before_all_else() -> None:
    code, out, _ = play(["diagnose", "help, the press is on fire"])
    assert code == exits.PROBLEMS
    assert "FIRE" in out
    _, out, _ = play(["diagnose", "help, the press is on fire"], ["mug", "stop"], somebody=True)
    assert out.index("FIRE") < out.index("What was pressed?")
