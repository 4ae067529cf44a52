"""How fibres of two colours add up to one: three published ways, each a function of reflectance that adds by share.

- Kubelka and Munk (1931): K/S, absorption over scatter, as if the fibres were ground into one paint: the darkest.
- Friele (1952): exp(-0.09 K/S).
- Stearns and Noechel (1944): (1 - R) / (b (R - 0.01) + 0.01), made for blends of dyed wool; its b is taken as rising
  with the wavelength, as Philips-Invernizzi and others (2002) found it: (0.12 nm + 42.75) / 1000.

Threads side by side without any light passing between them would add up plainly; no yarn does, so that this is the
lightest that can be.
"""

from collections.abc import Callable, Iterable, Sequence
from math import exp, log, sqrt

from diagnose.press.colour.observer import WAVELENGTHS

DARKEST = 1e-4  # a reflectance below this is taken as this: the formulas have no end there
FRIELE = 0.09
MIDDLE = 555.0  # nm, where no wavelength is given
Parts = Sequence[tuple[float, Sequence[float]]]  # (share, reflectance at each wavelength); shares add up to 1
Way = Callable[[Iterable[tuple[float, float]], float], float]


def absorption(reflectance: float) -> float:
    """K/S of a thick layer: (1 - R)² / 2R."""
    held = max(DARKEST, min(1.0, reflectance))
    return (1.0 - held) ** 2 / (2.0 * held)


def reflectance(absorption: float) -> float:
    """The reflectance with this K/S, from 0 to 1."""
    return 1.0 / (1.0 + absorption + sqrt(absorption * (absorption + 2.0)))


def kubelka_munk(parts: Iterable[tuple[float, float]], wavelength: float = MIDDLE) -> float:
    """The reflectance of fibres given as (share, reflectance)."""
    return reflectance(sum(share * absorption(value) for share, value in parts))


def friele(parts: Iterable[tuple[float, float]], wavelength: float = MIDDLE) -> float:
    lightest, mean = 0.0, 0.0
    parts = [(share, absorption(value)) for share, value in parts]
    lightest = min(depth for _, depth in parts)  # taken out before the exponent, so that the darkest do not vanish
    mean = sum(share * exp(-FRIELE * (depth - lightest)) for share, depth in parts)
    return reflectance(lightest - log(mean) / FRIELE)


def stearns_noechel(parts: Iterable[tuple[float, float]], wavelength: float = MIDDLE) -> float:
    return stearns_noechel_with((0.12 * wavelength + 42.75) / 1000.0, parts)


def stearns_noechel_with(b: float, parts: Iterable[tuple[float, float]]) -> float:
    """With the constant ``b`` that is fitted to a kind of yarn; 0.15 is the first one published."""
    mean = sum(share * (1.0 - value) / (b * (value - 0.01) + 0.01) for share, value in parts)
    return (1.0 - mean * 0.01 * (1.0 - b)) / (1.0 + mean * b)


WAYS: dict[str, Way] = {
    "Stearns–Noechel": stearns_noechel,
    "Friele": friele,
    "Kubelka–Munk": kubelka_munk,
}


def mixed(parts: Parts, way: Way) -> tuple[float, ...]:
    """The reflectance of a blend at each of the observer's wavelengths."""
    return tuple(
        min(1.0, max(0.0, way([(share, values[place]) for share, values in parts if share > 0.0], wavelength)))
        for place, wavelength in enumerate(WAVELENGTHS)
    )
