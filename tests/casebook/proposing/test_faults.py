"""What a draft lacks and what is wrong with it, all at once."""

from pathlib import Path

import pytest

from diagnose.casebook.proposing.draft import Draft
from diagnose.casebook.proposing.faults import faults, wanted_cautions
from diagnose.knowledge.model import Knowledge
from tests.casebook.proposing.conftest import SAID, known

KNOWN: dict[str, str | list[str] | None] = {
    "defect": "faint-colour",
    "cause": "platen-runs-cool",
    "brings": "likely",
    "why": "Because.",
    "basis": ["common practice"],
    "story": "Pale.",
}


def told(draft: Draft, knowledge: Knowledge) -> list[str]:
    return [str(fault) for fault in faults(draft, knowledge)]


def test_a_whole_draft_has_none(draft: Draft, knowledge: Knowledge) -> None:
    assert told(draft, knowledge) == []


def test_everything_that_is_missing_is_named_at_once(knowledge: Knowledge) -> None:
    missing = {fault.field for fault in faults(Draft(), knowledge) if fault.missing}
    assert missing == {"defect", "cause", "brings", "why", "basis", "story"}
    new = Draft.of({"new-cause": "Cold", "new-check": "Feel", "fix": "press-longer", "basis": ["this shop's cases"]})
    assert {fault.field for fault in faults(new, knowledge) if fault.missing} == {
        *("defect", "family", "about", "turns-up", "brings", "why", "learned-from", "cures", "story"),
        *("kind", "asks", "how", "check-minutes", "quiet", "telling", "shows"),
    }


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"defect": "faint-color"}, "no defect has the id “faint-color” - did you mean faint-colour?"),
        ({"new-cause": None, "cause": "dwell-shrt"}, "did you mean dwell-short?"),
        ({"new-fix": None, "fix": "press-longr"}, "did you mean press-longer?"),
        ({"new-check": None, "check": "probe-the-platen=reads-lo"}, "did you mean reads-low?"),
        ({"new-check": None, "check": "probe-the-platen=agrees"}, "where all is well"),
        ({"item": "tea-towl"}, "did you mean tea-towel?"),
        ({"tried": ["press-longr"]}, "did you mean press-longer?"),
        ({"never": ["dwell-shrt"]}, "did you mean dwell-short?"),
        ({"answer": ["probe-the-platn=agrees"]}, "did you mean probe-the-platen?"),
        ({"basis": ["comon practice"]}, "did you mean common practice?"),
        ({"family": "heet"}, "expected one of heat, time"),
        ({"kind": "sniff"}, "expected one of look, ask, measure, try"),
        ({"caution": ["hot-platn"]}, "did you mean hot-platen?"),
        ({"brings": "certain"}, "is no chance"),
        ({"minutes": "soon"}, "is no number of minutes"),
        ({"waits": "60"}, "“60” is no wait - expected how long and what for"),
        ({"check-waits": "0 min for the press to cool"}, "is no wait - expected from a minute to 100 working days"),
        ({"check-waits": "900 days for the cloth to come"}, "is no wait"),
        ({"new-fix": None, "fix": "press-longer", "waits": "a day for it to dry"}, "goes with --new-fix only"),
        ({"new-cause": "x" * 121}, "121 letters - expected at most 120"),
        ({"cause": "dwell-short"}, "give either --cause or --new-cause"),
        ({"fix": "press-longer"}, "give either --fix or --new-fix"),
        ({"new-cause": None, "cause": "dwell-short"}, "goes with --new-cause only"),
        ({"new-fix": None, "cures": None}, "what puts the new cause right?"),
        ({"new-cause": "pressed TOO short"}, "this is known: say --cause dwell-short"),
        ({"new-fix": "Press five seconds longer"}, "this is known: say --fix press-longer"),
        ({"saw": ["faint-colour"], "not-seen": ["faint-colour"]}, "cannot be seen and not be there"),
        ({"answer": ["probe-the-platen=agrees", "probe-the-platen=reads-low"]}, "one outcome only"),
        ({"when": ["item.polyester=under 50"]}, "the worked case does not meet this"),
        ({"when": ["item.hard=no", "item.hard=yes"]}, "item.hard is named twice"),
        ({"when": ["item.polyester=80 to 50"]}, "the smaller number first"),
        ({"how": ["Open the press."]}, "these steps call for: hot-platen (or say none)"),
    ],
)
def test_what_cannot_be_taken_is_said_with_its_remedy(
    knowledge: Knowledge, changes: dict[str, str | list[str] | None], words: str
) -> None:
    said = {**SAID, **changes}
    assert any(words in each for each in told(Draft.of(said), knowledge)), told(Draft.of(said), knowledge)


def test_a_rule_that_is_there_already_is_not_written_twice(knowledge: Knowledge) -> None:
    assert "the shipped rule at" in told(Draft.of(KNOWN), knowledge)[0]
    assert "rules/faint-colour.yaml:9:5 says that already" in told(Draft.of(KNOWN), knowledge)[0]


def test_the_same_cause_under_another_condition_is_another_rule(knowledge: Knowledge) -> None:
    apart = {**KNOWN, "cause": "dwell-short", "when": ["item.polyester=under 50"]}
    assert told(Draft.of(apart), knowledge) == []
    touching = {**apart, "when": ["item.polyester=under 55"]}
    assert "says that already" in told(Draft.of(touching), knowledge)[0]


def test_a_fix_or_check_that_does_so_already_is_not_added(knowledge: Knowledge) -> None:
    apart = {**KNOWN, "cause": "dwell-short", "when": ["item.polyester=under 50"]}
    twice = {
        **apart,
        "fix": "press-longer",
        "cures": "likely",
        "check": "probe-the-platen=timer-jumps",
        "shows": "rarely",
    }
    assert [each.partition(":")[0] for each in told(Draft.of(twice), knowledge)] == ["--fix", "--check"]


def test_an_own_rule_is_called_so(knowledge: Knowledge, tiny: Path, shop: Path) -> None:
    (shop / "rules").mkdir()
    (shop / "rules" / "faint-colour.yaml").write_text(
        "adds-to: faint-colour\nstatus: trial\ndate: 2026-11-25\nrules:\n"
        '  - {cause: dwell-short, brings: likely, if: {item.polyester: "< 50"}, why: So., basis: common practice}\n'
    )
    apart = {**KNOWN, "cause": "dwell-short", "when": ["item.polyester=under 40"]}
    assert "this shop's own rule at" in told(Draft.of(apart), known(tiny, shop))[0]


def test_steps_call_for_cautions(knowledge: Knowledge) -> None:
    assert wanted_cautions(knowledge, ("Raise the heat.",)) == ("hot-platen",)
    assert wanted_cautions(knowledge, ("Bring them to the press room.",)) == ()


@pytest.mark.parametrize(
    ("field", "said"), [("why", "So\x1b[2J."), ("why", "So\tthen."), ("step", ["Shut it.", "\u202eShut it."])]
)
def test_what_cannot_be_shown_is_named_by_its_field(knowledge: Knowledge, field: str, said: str | list[str]) -> None:
    assert (
        [each for each in told(Draft.of({**SAID, field: said}), knowledge) if "not shown (U+" in each]
        == [
            each
            for each in told(Draft.of({**SAID, field: said}), knowledge)
            if each.startswith(f"--{field}: a character")
        ]
        != []
    )
