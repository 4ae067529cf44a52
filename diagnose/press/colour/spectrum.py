"""A smooth reflectance for a colour, and the colour of a reflectance.

Countless reflectances give one colour. This takes the smoothest whose values all lie between 0 and 1, as S. A. Burns
proposed ("Numerical methods for smoothest reflectance reconstruction", Color Research and Application, 2020): steps
between neighbours are least after each value is bent by a hyperbolic tangent. Dyes are smooth too, so that it serves
for what a blend makes of them; a measured curve would serve better. Daylight D65, observer of 1931.
"""

from functools import lru_cache
from typing import Any

from diagnose.press.colour.conversion import from_xyz, to_xyz
from diagnose.press.colour.lab import Lab
from diagnose.press.colour.observer import WEIGHTS, WHITE

Spectrum = tuple[float, ...]
ROUNDS, ENOUGH = 80, 1e-9
LIGHTEST, DARKEST = 99.5, 1.0  # beyond these the curve runs into its ends
HALVINGS = 12


class NoSurface(ValueError):
    """A colour that no surface without brightener has: as light and as colourful as this cannot be."""


def colour_of(spectrum: Spectrum) -> Lab:
    x, y, z = (
        sum(share * weights[part] for share, weights in zip(spectrum, WEIGHTS, strict=True)) for part in range(3)
    )
    return from_xyz((x, y, z), WHITE)


@lru_cache(maxsize=256)
def smoothest(colour: Lab) -> Spectrum:
    """The smoothest reflectance of this colour, from 0 to 1 at each of the observer's wavelengths.

    Raises:
        NoSurface: there is none.
    """
    import numpy as np

    held = min(LIGHTEST, max(DARKEST, colour.lightness))
    wanted = np.array(to_xyz(Lab(held, colour.a, colour.b), WHITE))
    weights = np.array(WEIGHTS)
    with np.errstate(all="ignore"):
        bent, missed = _solve(np, weights, wanted)
    if not missed < 1e-7:
        raise NoSurface(f"no surface has the colour {colour}")
    return tuple(float(value) for value in (np.tanh(bent) + 1.0) / 2.0)


def nearest(colour: Lab) -> tuple[Spectrum, Lab]:
    """The smoothest reflectance of this colour, else of the nearest of the same lightness and hue that a surface
    can have (cloth with brightener gives back more blue than falls on it); and which colour that is."""
    try:
        return smoothest(colour), colour
    except NoSurface:
        pass
    low, high = 0.0, 1.0
    for _ in range(HALVINGS):
        share = (low + high) / 2.0
        try:
            smoothest(_duller(colour, share))
            low = share
        except NoSurface:
            high = share
    taken = _duller(colour, low)
    return smoothest(taken), taken


def _duller(colour: Lab, share: float) -> Lab:
    return Lab(colour.lightness, colour.a * share, colour.b * share)


def _solve(np: Any, weights: Any, wanted: Any) -> tuple[Any, float]:
    """Newton's steps on the smoothness with the colour as its condition; the bent values, and by how much the
    colour is missed."""
    size = len(weights)
    steps = np.diff(np.eye(size), axis=0)
    smooth = 2.0 * steps.T @ steps
    bent, pulls = np.zeros(size), np.zeros(3)
    missed = np.inf
    for _ in range(ROUNDS):
        tangent = np.tanh(bent)
        slope = (1.0 - tangent**2) / 2.0
        pulled = weights @ pulls
        off = weights.T @ ((tangent + 1.0) / 2.0) - wanted
        residual = np.concatenate([smooth @ bent + slope * pulled, off])
        missed = float(np.abs(off).max())
        if float(np.abs(residual).max()) < ENOUGH or not np.isfinite(missed):
            break
        held = weights * slope[:, None]
        top = np.hstack([smooth - 2.0 * np.diag(slope * tangent * pulled), held])
        system = np.vstack([top, np.hstack([held.T, np.zeros((3, 3))])])
        try:
            step = np.linalg.solve(system, -residual)
        except np.linalg.LinAlgError:
            return bent, np.inf
        step *= min(1.0, 2.0 / max(1e-12, float(np.abs(step[:size]).max())))
        bent, pulls = bent + step[:size], pulls + step[size:]
    return bent, missed
