"""Dangers are heard as people cry them out, and nothing else is taken for one."""

from functools import cache

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from diagnose.knowledge.loading import load, shipped_folder
from diagnose.reasoning.words.dangers import CLASSES, PATTERNS, dangers

LIVE = {
    "help the press is smoking": "smoke",
    "i got zapped off the handle": "electric-shock",
    "burnt my hand on platen bad": "burn",
    "its on fire!!": "fire",
    "breaker keeps tripping when i switch on": "electrical-fault",
    "fumes making me dizzy": "fumes",
    "my apprentice has his fingers trapped between the platens": "caught-hand",
    "cut my hand on the broken mug": "cut",
    "press won't open!!": "press-will-not-open",
    "smok coming out of press": "smoke",
    "FIIIRE": "fire",
    "got ink in my eye": "in-the-eye",
    "colleague collapsed next to the press": "collapsed",
    "my kid touched the hot platen": "child-at-the-press",
    "my son drank some ink": "swallowed",
    "mixed bleach and vinegar to clean the tray": "mixed-cleaners",
    "we need an ambulance": "somebody-hurt",
    "i smell gas": "gas",
    "the battery is hissing and hot": "keep-away",
    "hot thinner? I spilled thinner next to the hot press": "keep-away",
    "ouch I touched the hot tile": "burn",
    "the tile, touched it hot, ouch": "burn",
    "thumb is flat and blue": "caught-hand",
    "were all coughing": "fumes",
}
SAME_WORDS = (  # a danger, and what only its grammar tells from it
    ("the press is smoking", "the press is not smoking"),
    ("it caught fire", "what if it catches fire?"),
    ("I burnt my hand", "I burnt my hand last year, that's why I wear gloves"),
    ("I burnt my hand", "I nearly burnt my hand"),
    ("I burnt my hand", "I burnt the shirt"),
    ("my hand is burnt", "the hand towel is burnt"),
    ("my finger is bleeding", "the ink is bleeding"),
    ("smoke comes out of the press", "steam comes out of the press"),
    ("smoke, the mug press", "smoke-grey mug"),
    ("smoke coming from the press", "smoke in the background of the photo"),
    ("the platen is on fire", "our sales are on fire"),
    ("I got a shock from the handle", "I got a shock when I saw the bill"),
    ("if I touch the handle I get a shock", "if I get a shock"),
    ("the press won't open", "the file won't open"),
    ("the fumes make me dizzy", "the pattern makes me dizzy"),
    ("my apprentice burnt her arm", "my apprentice burnt the cover sheet"),
    ("glass in my finger", "glass in the photo"),
    ("the breaker trips", "the breaker never trips"),
    ("the press won't open? my hand is in it", "won't open? my file I mean"),
    ("high voltage in the handle", "high voltage sign on the handle"),
    ("smoke in the press, black in colour", "smoke in the photo, black in colour"),
    ("we had a fire just now", "we had a fire in 2019"),
)


@cache
def said() -> dict[str, list[str]]:
    text = (shipped_folder() / "tests" / "words" / "dangers.yaml").read_text(encoding="utf-8")
    found: dict[str, list[str]] = yaml.safe_load(text)
    return found


@pytest.mark.parametrize("text", LIVE)
def test_a_danger_is_heard_for_what_it_is(text: str) -> None:
    assert dangers(text)[:1] == (LIVE[text],)


@pytest.mark.parametrize(("danger", "harmless"), SAME_WORDS)
def test_grammar_tells_them_apart(danger: str, harmless: str) -> None:
    assert dangers(danger)
    assert dangers(harmless) == ()


def test_every_cry_is_heard() -> None:
    assert [text for text in said()["dangers"] if not dangers(text)] == []
    assert len(said()["dangers"]) > 550


def test_nothing_harmless_is_taken_for_a_danger() -> None:
    assert {text: dangers(text) for text in said()["harmless"] if dangers(text)} == {}
    assert len(said()["harmless"]) > 1000


# Of 60 dangers at least so many are heard, of 250 harmless texts at most so many are taken for one: as measured.
MEASURED = {
    "first half, patterns mended by it": (slice(60), 60, slice(250), 0),
    "second half": (slice(60, 120), 51, slice(250, 500), 2),
}


@pytest.mark.parametrize("half", MEASURED)
def test_what_strangers_cry_out_is_heard(half: str) -> None:
    """Totals only: whoever reads the second half has nothing left to measure with."""
    unseen = yaml.safe_load((shipped_folder() / "tests" / "words" / "dangers-unseen.yaml").read_text(encoding="utf-8"))
    assert (len(unseen["dangers"]), len(unseen["harmless"])) == (120, 500)
    cries, heard, harmless, taken = MEASURED[half]
    assert sum(bool(dangers(text)) for text in unseen["dangers"][cries]) >= heard
    assert sum(bool(dangers(text)) for text in unseen["harmless"][harmless]) <= taken


@pytest.mark.parametrize("danger", PATTERNS)
def test_how_people_say_it_is_heard(danger: str) -> None:
    known = load().dangers[danger]
    assert [text for text in known.said if danger not in dangers(text)] == []


def test_all_that_is_heard_is_known_and_the_other_way_round() -> None:
    assert sorted(PATTERNS) == sorted(load().dangers)


def test_names_of_defects_cry_out_nothing() -> None:
    """But for a few in which something does burn or smoke: those are dangers first."""
    names = [name for defect in load().defects.values() for name in (defect.title, defect.looks, *defect.said)]
    assert {name for name in names if dangers(name)} <= {
        "burning smell",
        "smell of burning",
        "smoke around the letters",
    }


def test_the_most_urgent_comes_first() -> None:
    assert dangers("I burnt my hand and the press is on fire")[0] == "fire"


def test_more_words_hide_no_danger() -> None:
    idle = "polyester shirt, 200 C, 60 seconds, since Monday the reds are off. "
    assert dangers(f"{idle * 5}The press is smoking! {idle * 5}") == ("smoke",)


def test_every_class_is_of_use() -> None:
    patterns = " ".join(pattern for each in PATTERNS.values() for pattern in each)
    assert [name for name in CLASSES if f"{{{name}}}" not in patterns] == []


@given(st.text(alphabet="abehimnorst !?,.-'\n", max_size=3000))
def test_any_text_is_read_alike_each_time(text: str) -> None:
    assert dangers(text) == dangers(text)
