"""One cause held against another, by what was seen and answered."""

import pytest

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.contrast import contrast
from diagnose.dialogue.moves import Answered, Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.reasons import decibans
from diagnose.speech.talk import rather
from tests.handbook.browser import knowledge

ONE, OTHER = "platen-runs-cool", "dwell-short"


def consultation(*answers: Answered) -> Consultation:
    return Consultation(
        knowledge(), Shop(), Session((Pressed("tea-towel-polyester"), Saw(("faint-colour",)), *answers))
    )


def test_a_finding_speaks_for_the_one_as_much_as_against_the_other() -> None:
    now = consultation(Answered("probe-the-platen", "reads-low"), Answered("time-with-a-watch", "clock-agrees"))
    found, turned = contrast(now, ONE, OTHER), contrast(now, OTHER, ONE)
    assert {r.finding: r.weight for r in found.reasons} == pytest.approx({r.finding: -r.weight for r in turned.reasons})
    assert found.usual == -turned.usual
    assert found.checks == turned.checks


def test_one_finding_moves_the_odds_between_the_two_by_what_is_told() -> None:
    before, now = consultation(), consultation(Answered("probe-the-platen", "reads-low"))
    (weight,) = [r.weight for r in contrast(now, ONE, OTHER).reasons if r.finding.kind == "answer"]

    def apart(at: Consultation) -> float:
        one, other = (decibans(at.beliefs.alive[at.net.index[cause]]) for cause in (ONE, OTHER))
        return one - other

    assert weight == pytest.approx(apart(now) - apart(before))
    assert weight > 5


def test_the_checks_that_part_them_are_open_and_speak_of_one_of_them() -> None:
    now = consultation(Answered("probe-the-platen", "reads-low"))
    found = contrast(now, ONE, OTHER)
    assert found.checks
    assert "probe-the-platen" not in found.checks
    for check in found.checks:
        assert {now.net.index[ONE], now.net.index[OTHER]} & set(now.net.checks[check].links)


def test_it_is_told_whole() -> None:
    now = consultation(Answered("probe-the-platen", "reads-low"))
    head, *lines = rather(now, contrast(now, ONE, OTHER))
    assert head.startswith("The platen runs cooler than its display (")
    assert "The dwell is too short" in head
    assert any("Measure the platen" in line and "speaks" in line for line in lines)
    assert lines[-1].startswith("These would tell the two apart: ")
