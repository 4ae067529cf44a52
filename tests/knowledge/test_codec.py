import json
from dataclasses import dataclass

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.knowledge.codec import decode, encode
from diagnose.knowledge.conditions import Condition, Span, Test
from diagnose.knowledge.model import Chance, Fact, WorkedCase
from diagnose.problems import Place

FILES = ("kb/all.yaml", "rules/haze.yaml")
NUMBERS = {name: number for number, name in enumerate(FILES)}
PLACES = st.builds(Place, st.sampled_from(FILES), st.integers(0, 99), st.integers(0, 99))
VALUES = st.one_of(st.text(), st.floats(allow_nan=False), st.booleans())
SPANS = st.builds(Span, st.floats(allow_nan=False), st.floats(allow_nan=False), st.booleans(), st.booleans())
TESTS = st.builds(Test, st.text(), st.lists(VALUES).map(tuple), st.none() | SPANS, st.text())
TEXTS = st.lists(st.text(), max_size=3).map(tuple)
CASES = st.builds(
    WorkedCase,
    story=st.text(),
    job=st.dictionaries(st.text(), VALUES),
    saw=TEXTS,
    answers=st.dictionaries(st.text(), st.text()),
    first=TEXTS,
    place=PLACES,
)
FACTS = st.builds(
    Fact,
    id=st.text(),
    title=st.text(),
    asks=st.text(),
    words=st.dictionaries(st.text(), TEXTS),
    least=st.none() | st.floats(allow_nan=False),
    yes_no=st.booleans(),
    place=PLACES,
)
CHANCES = st.builds(Chance, st.floats(0, 1), st.text())
CONDITIONS = st.builds(Condition, st.lists(TESTS).map(tuple))


@given(st.one_of(CASES, FACTS, CHANCES, CONDITIONS))
@settings(max_examples=60, deadline=None)
def test_there_and_back(value: object) -> None:
    plain = json.loads(json.dumps(encode(value, NUMBERS)))
    back = decode(type(value), plain, FILES)
    assert back == value
    assert repr(back) == repr(value)
    assert hash(back) == hash(value) if isinstance(value, Chance | Condition) else True


def test_equal_chances_become_one_object() -> None:
    @dataclass(frozen=True, slots=True)
    class Pair:
        one: Chance
        other: Chance

    back = decode(Pair, encode(Pair(Chance(0.5, "even"), Chance(0.5, "even")), {}), ())
    assert back.one is back.other


def test_a_place_in_an_unknown_file() -> None:
    with pytest.raises(KeyError):
        encode(Place("elsewhere.yaml"), NUMBERS)


@pytest.mark.parametrize("plain", [5, [1], ["a", "b", "c"], {"a": 1}])
def test_what_no_encode_has_made(plain: object) -> None:
    with pytest.raises((TypeError, ValueError, KeyError, IndexError)):
        decode(Fact, plain, FILES)
