"""Temperatures and times as they are shown: the shop's unit first, the other beside it."""


def degrees(celsius: float, unit: str) -> str:
    """``200 °C (392 °F)``, or the other way round where the shop's unit is F."""
    one, other = f"{celsius:.0f} °C", f"{celsius * 1.8 + 32:.0f} °F"
    return f"{other} ({one})" if unit == "F" else f"{one} ({other})"


def step(kelvin: float, unit: str) -> str:
    """A difference, without its sign: ``8 °C (14 °F)``."""
    one, other = f"{abs(kelvin):.0f} °C", f"{abs(kelvin) * 1.8:.0f} °F"
    return f"{other} ({one})" if unit == "F" else f"{one} ({other})"


def seconds(time: float) -> str:
    """``48 s``; from two minutes on with the minutes beside it: ``218 s (3.6 min)``."""
    return f"{time:.0f} s" if time < 120 else f"{time:.0f} s ({time / 60:.1f} min)"
