"""Recorded sessions and what is known of each, beliefs, step and words: the command and the page come to the same.

Each is a file in ``tests/conformance/``: whose shop, the moves as a session is saved, and what is ``known`` then. After
a wanted change: ``./dev test --refresh``, and read the diff. A new one needs its shop and its moves alone.
"""

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from py_mini_racer import MiniRacer

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.saving import from_plain
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load_shop
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from tests.handbook.browser import by_command, by_page, differences, engine, knowledge, shipped_engine

ROOT = Path(__file__).parents[2]
CASES = sorted((ROOT / "tests" / "conformance").glob("*.json"))
LEADING = 5  # causes whose reasons are recorded
DIGITS = 12  # decimals that are written: more than are compared


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_the_command_comes_to_what_is_recorded(case: Path, request: pytest.FixtureRequest) -> None:
    recorded = json.loads(case.read_text(encoding="utf-8"))
    now = Consultation(*_at(recorded["shop"]), from_plain(recorded["moves"]))
    known = _known(by_command(now))
    if request.config.getoption("--refresh") and _apart(recorded.get("known", {}), known):
        recorded["known"] = known
        case.write_text(json.dumps(recorded, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    assert _apart(recorded["known"], known) == [], (
        "presslore answers otherwise: ./dev test --refresh, and read the diff"
    )


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_the_page_comes_to_what_is_recorded(case: Path) -> None:
    recorded = json.loads(case.read_text(encoding="utf-8"))
    session, (held, _) = from_plain(recorded["moves"]), _at(recorded["shop"])
    known = _known(by_page(session, _world(recorded["shop"]), held.version))
    assert _apart(recorded["known"], known) == []


def test_the_recorded_sessions_go_through_all_that_can_be_said() -> None:
    sessions = [from_plain(json.loads(case.read_text(encoding="utf-8"))["moves"]) for case in CASES]
    said = {type(move).__name__ for session in sessions for move in session.moves}
    assert said == {type(move).__name__ for move in _every_kind().moves}
    assert len(CASES) >= 36
    assert len({session.press for session in sessions}) >= 4
    assert any(len(session.evidence.seen) > 3 for session in sessions)
    assert any(session.evidence.tried and session.evidence.tried[0].gone for session in sessions)


def _every_kind() -> Session:
    plain = [
        {"move": "pressed", "item": ""},
        {"move": "saw", "defects": []},
        {"move": "did-not-see", "defects": []},
        {"move": "answered", "check": "", "outcome": ""},
        {"move": "measured", "figures": {}},
        {"move": "named", "cause": ""},
        {"move": "last-good", "on": ""},
        {"move": "found-lately", "cause": "", "on": "", "times": 1.0},
        {"move": "used", "used": {}},
        {"move": "cannot-tell", "check": ""},
        {"move": "tried", "fix": ""},
        {"move": "cannot-do", "fix": ""},
        {"move": "cured"},
        {"move": "handed-over"},
    ]
    return from_plain(plain)


def _apart(one: dict[str, Any], other: dict[str, Any]) -> list[str]:
    """Where two records differ, keys included."""
    if one.keys() != other.keys():
        return [f"{sorted(one)} and {sorted(other)}"]
    return differences(one, other)


def _known(found: dict[str, Any]) -> dict[str, Any]:
    """What is recorded of all that a side knows of a session: of beliefs those that come up."""
    kind, step, cost, minutes, *_ = found["advice"]
    return {
        "causes": [[cause, _rounded(behind), _rounded(present)] for cause, _, present, behind in found["suspects"]],
        "unknown": _rounded(found["beliefs"]["unknown"]),
        "exact": found["beliefs"]["exact"],
        "step": [kind, step, _rounded(cost), _rounded(minutes)],
        "why": found["why"],
        "cautions": [before for known, *before in found["cautions"] if known == step],
        "figures": [[measure, _rounded(value), text] for measure, value, _, _, text in found["readings"]],
        "told": found["told"][:LEADING],
        "would change": found["change"],
        "caveat": found["caveat"],
        "summary": found["summary"],
        "over": found["over"],
    }


def _rounded(value: float) -> float:
    return round(value, DIGITS)


@cache
def _at(shop: str) -> tuple[Knowledge, Shop]:
    if not shop:
        return knowledge(), Shop()
    stock = load_shop(ROOT / shop)
    return stock.knowledge, stock.shop


@cache
def _world(shop: str) -> MiniRacer:
    return engine(*_at(shop)) if shop else shipped_engine()
