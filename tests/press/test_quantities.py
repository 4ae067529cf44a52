"""Typed values: taken in every unit of the trade, refused with a sentence that helps."""

from collections.abc import Callable
from functools import partial
from time import process_time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.foresight.figures import FIGURES, sheets, typed
from diagnose.press import quantities
from diagnose.press.colour.lab import lab
from diagnose.press.quantities import Unclear


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [(350, 176.67), (360, 182.22), (375, 190.56), (385, 196.11), (400, 204.44), (410, 210.00)],
)
def test_settings_of_the_trade_in_both_scales(fahrenheit: int, celsius: float) -> None:
    assert quantities.temperature(f"{fahrenheit}F") == pytest.approx(celsius, abs=0.005)


@pytest.mark.parametrize(
    ("read", "text", "value"),
    [
        (quantities.temperature, "196 °C", 196.0),
        (quantities.temperature, "196,5c", 196.5),
        (quantities.dwell, "60s", 60.0),
        (quantities.dwell, "1:05", 65.0),
        (quantities.dwell, "1.5 min", 90.0),
        (quantities.pressure, "1psi", 6.894757),  # NIST SP 811, from memory
        (quantities.pressure, "2.8bar", 280.0),
        (quantities.length, "6mm", 0.006),
        (quantities.length, '1.5"', 0.0381),
        (quantities.share, "65%", 0.65),
        (quantities.share, "65", 0.65),
        (quantities.share, "65/35", 0.65),
        (quantities.share, "50 / 50", 0.5),
        (quantities.share, "0.65", 0.65),
        (quantities.share, ".5", 0.5),
        (quantities.share, "0.5%", 0.005),
        (quantities.share, "1", 0.01),
        (quantities.temperature, "392", 200.0),
        (quantities.temperature, "385", 1765 / 9),
        (quantities.dwell, "50", 50.0),
    ],
)
def test_taken(read: Callable[[str], float], text: str, value: float) -> None:
    assert read(text) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "unit"),
    [
        ("392", quantities.TEMPERATURE, "°F"),
        ("392F", quantities.TEMPERATURE, ""),
        ("196", quantities.TEMPERATURE, ""),
        ("50", quantities.DWELL, "s"),
        ("3", quantities.DWELL, ""),
        ("0.65", quantities.SHARE, "of 1"),
        ("65", quantities.SHARE, ""),
        ("65/35", quantities.SHARE, ""),
        ("nonsense", quantities.SHARE, ""),
    ],
)
def test_what_a_bare_number_was_taken_for(text: str, kind: quantities.QuantityKind, unit: str) -> None:
    assert quantities.assumed(text, kind) == unit


def test_sides() -> None:
    assert quantities.area("40x50cm") == (0.4, 0.5)
    assert quantities.area("16in x 20in") == pytest.approx((0.4064, 0.508))


@pytest.mark.parametrize(
    ("read", "text", "said"),
    [
        (quantities.temperature, "196", "is it 196F or 196C?"),
        (quantities.temperature, "300", "is it 300F or 300C?"),
        (quantities.temperature, "3920", "is it 3920F or 3920C?"),
        (quantities.share, "65/40", "is not a unit of share"),
        (quantities.temperature, "3850F", "makes no sense"),
        (quantities.temperature, "385C", "makes no sense"),
        (quantities.temperature, "hot", "385F or 196C"),
        (quantities.temperature, "40psi", "'psi' is not a unit of temperature"),
        (quantities.dwell, "-5s", "makes no sense"),
        (quantities.dwell, "0s", "above 0"),
        (quantities.dwell, "3", "has no unit"),
        (quantities.dwell, "1:75", "not a"),
        (quantities.pressure, "40", "40psi"),
        (quantities.length, "nanmm", "not a length"),
        (quantities.share, "165%", "makes no sense"),
        (quantities.area, "40cm", "two sides"),
        (quantities.area, "40x50", "has no unit"),
    ],
)
def test_refused_with_what_to_write(read: Callable[[str], object], text: str, said: str) -> None:
    with pytest.raises(Unclear) as refused:
        read(text)
    assert said in str(refused.value)


@settings(max_examples=50)
@given(st.floats(-20, 290))
def test_both_scales_say_the_same(celsius: float) -> None:
    fahrenheit = celsius * 1.8 + 32
    assert quantities.temperature(f"{fahrenheit:.9f}F") == pytest.approx(celsius, abs=1e-6)


HOSTILE = (
    "1" + " " * 50_000 + "x",
    "1a" + " " * 50_000 + "b",
    "1" * 50_000,
    "1" * 50_000 + ":00",
    "1" * 50_000 + "!",
    "1," * 25_000,
    "1" + " " * 50_000 + "x1" + " " * 50_000 + "!",
    "x" * 50_000,
)
READERS = (
    quantities.temperature,
    quantities.dwell,
    quantities.pressure,
    quantities.length,
    quantities.area,
    quantities.share,
    lab,
    sheets,
)
READS = {
    **{read.__name__: read for read in READERS},
    **{f"typed-{name}": partial(typed, FIGURES[name]) for name in ("probe", "watch", "sheets")},
}


@pytest.mark.parametrize("read", READS.values(), ids=READS)
@pytest.mark.parametrize("text", HOSTILE, ids=lambda text: f"{text[:4]}...{text[-2:]}")
def test_hostile_values_are_refused_in_a_moment_and_in_a_short_sentence(
    read: Callable[[str], object], text: str
) -> None:
    start = process_time()
    with pytest.raises(Unclear) as refused:
        read(text)
    assert process_time() - start < 5.0
    assert len(str(refused.value)) < 400


def test_white_space_within_a_value_does_not_count() -> None:
    assert quantities.temperature("  385 " + " " * 20_000 + "F ") == quantities.temperature("385F")
    assert lab("52" + " " * 20_000 + "40\t\n20") == lab("52 40 20")
    assert typed(FIGURES["probe"], "371F   against \t 385F") == typed(FIGURES["probe"], "371F against 385F")
