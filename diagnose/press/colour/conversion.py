"""Between CIELAB, XYZ and sRGB (IEC 61966-2-1). sRGB is seen in daylight D65; colours measured under D50, as the
graphic trade's instruments do, are carried over by the Bradford transform of ICC.1."""

from collections.abc import Sequence

from diagnose.press.colour.lab import Lab
from diagnose.press.quantities import Unclear

WHITES = {"D65": (0.95047, 1.0, 1.08883), "D50": (0.96422, 1.0, 0.82521)}  # X, Y, Z for the observer of 1931
CUBE = 216.0 / 24389.0
LINE = 24389.0 / 27.0
TO_SRGB = (
    (3.2404542, -1.5371385, -0.4985314),
    (-0.9692660, 1.8760108, 0.0415560),
    (0.0556434, -0.2040259, 1.0572252),
)
FROM_SRGB = (
    (0.4124564, 0.3575761, 0.1804375),
    (0.2126729, 0.7151522, 0.0721750),
    (0.0193339, 0.1191920, 0.9503041),
)
BRADFORD = {
    "D50": (  # D50 to D65
        (0.9555766, -0.0230393, 0.0631636),
        (-0.0282895, 1.0099416, 0.0210077),
        (0.0122982, -0.0204830, 1.3299098),
    ),
    "D65": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
}
Triple = tuple[float, float, float]


def to_xyz(colour: Lab, white: Sequence[float] = WHITES["D65"]) -> Triple:
    """X, Y and Z with Y = 1 for the white; relative to the white the colour was measured against."""
    fy = (colour.lightness + 16.0) / 116.0
    x, z = _unbent(fy + colour.a / 500.0), _unbent(fy - colour.b / 200.0)
    y = fy**3 if colour.lightness > LINE * CUBE else colour.lightness / LINE
    return x * white[0], y * white[1], z * white[2]


def from_xyz(xyz: Sequence[float], white: Sequence[float] = WHITES["D65"]) -> Lab:
    fx, fy, fz = (_bent(part / full) for part, full in zip(xyz, white, strict=True))
    return Lab(116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz))


def to_srgb(colour: Lab, light: str = "D65") -> tuple[int, int, int]:
    """Red, green and blue from 0 to 255, held within what a screen can show."""
    linear = _times(TO_SRGB, _times(BRADFORD[light], to_xyz(colour, WHITES[light])))
    red, green, blue = (round(255.0 * _gamma(min(1.0, max(0.0, part)))) for part in linear)
    return red, green, blue


def shown(colour: Lab, light: str = "D65") -> bool:
    """Whether a screen can show the colour as it is."""
    linear = _times(TO_SRGB, _times(BRADFORD[light], to_xyz(colour, WHITES[light])))
    return all(-0.002 <= part <= 1.002 for part in linear)


def from_srgb(red: float, green: float, blue: float) -> Lab:
    """A screen's colour, each part from 0 to 255, under D65."""
    return from_xyz(_times(FROM_SRGB, tuple(_linear(part / 255.0) for part in (red, green, blue))))


def under_d65(colour: Lab, light: str) -> Lab:
    """A colour measured against the white of ``light``, as it is against the white of D65."""
    if light == "D65":
        return colour
    return from_xyz(_times(BRADFORD[light], to_xyz(colour, WHITES[light])))


def hexed(colour: Lab, light: str = "D65") -> str:
    """``#rrggbb``, as pages write it."""
    return "#{:02x}{:02x}{:02x}".format(*to_srgb(colour, light))


def from_hex(text: str) -> Lab:
    """A colour from ``#rrggbb``. Raises Unclear where it is not one."""
    digits = text.strip().removeprefix("#")
    try:
        whole = bytes.fromhex(digits)
    except ValueError:
        whole = b""
    if len(whole) != 3 or len(digits) != 6:
        raise Unclear(f"'{text}' is not a screen colour: write it as # and six digits, such as #b03a2e")
    return from_srgb(*whole)


def _bent(part: float) -> float:
    return part ** (1.0 / 3.0) if part > CUBE else (LINE * part + 16.0) / 116.0


def _unbent(part: float) -> float:
    return part**3 if part**3 > CUBE else (116.0 * part - 16.0) / LINE


def _gamma(part: float) -> float:
    return 12.92 * part if part <= 0.0031308 else 1.055 * part ** (1.0 / 2.4) - 0.055


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4


def _times(matrix: Sequence[Triple], vector: Sequence[float]) -> Triple:
    one, two, three = (sum(m * v for m, v in zip(row, vector, strict=True)) for row in matrix)
    return one, two, three
