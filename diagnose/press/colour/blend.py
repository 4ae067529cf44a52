"""What a blend makes of a print: the same ink on cloth of less polyester, before and after the wash.

The dye goes into polyester and only sits on cotton. So the print on a blend is polyester fibres at the full colour
among cotton fibres that carry some loose dye, and after washing among cotton fibres as they were. How much dye sits on
cotton at first hangs on heat, ink and cloth; it is set here as a share of what polyester takes (``ON_COTTON``), a round
figure of ours to be put right by a trial. Ink is see-through and there is no white: what the cloth swallows of the
light, it goes on swallowing under the print.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from diagnose.press.colour.difference import ciede2000
from diagnose.press.colour.lab import Lab
from diagnose.press.colour.mixing import WAYS, Parts, absorption, mixed, reflectance
from diagnose.press.colour.spectrum import Spectrum, colour_of, nearest

WHITE_CLOTH = Lab(95.0, 0.0, 0.0)  # a round figure for bleached cloth without brightener
ON_COTTON = 0.25  # of the dye that polyester takes; sits on cotton until the wash
STATED = "Stearns–Noechel"  # the way that was made for blended yarn, and lies between the others and plain addition
HARDLY, SOFT, PALER = 2.0, 6.0, 15.0  # CIEDE2000; common practice: what passes, what is softer, what is paler
DARK, SUNK = 35.0, 12.0  # lightness: of dark cloth, and how far a print must stand out from it
SHARES = (1.0, 0.65, 0.5, 0.35)


@dataclass(frozen=True, slots=True)
class Ways:
    """One colour as each way of adding fibres up predicts it."""

    by: Mapping[str, Lab]

    @property
    def stated(self) -> Lab:
        return self.by[STATED]

    @property
    def spread(self) -> float:
        """The largest CIEDE2000 between any two of the ways: how far the prediction may be trusted."""
        found = list(self.by.values())
        return max(ciede2000(one, other) for one in found for other in found)


@dataclass(frozen=True, slots=True, kw_only=True)
class OnBlend:
    """A print on cloth with this ``share`` of polyester (0 to 1): fresh from the press and washed. The distances are
    CIEDE2000 of the stated way: ``off`` washed from the same print on all polyester, ``lost`` washed from fresh,
    ``threads`` the polyester fibre from the cotton beside it once washed (what makes a blend look heathered)."""

    share: float
    fresh: Ways
    washed: Ways
    off: float
    lost: float
    threads: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Blend:
    """A print over several shares. ``full`` is its colour on all polyester of this ``ground``; ``taken`` the colours
    that were out of a surface's reach, each with the nearest that was taken for it."""

    wanted: Lab
    ground: Lab
    full: Lab
    on: tuple[OnBlend, ...]
    taken: Mapping[Lab, Lab] = field(default_factory=dict)

    @property
    def tinted(self) -> bool:
        """Whether the cloth is other than white."""
        return ciede2000(self.ground, WHITE_CLOTH) >= HARDLY

    @property
    def sinks(self) -> bool:
        """Whether the print hardly stands out from its cloth; on dark cloth only by being lighter or darker."""
        if self.ground.lightness < DARK:
            return abs(self.full.lightness - self.ground.lightness) < SUNK
        return ciede2000(self.full, self.ground) < SOFT


def paler(blends: Iterable[Blend], share: float) -> tuple[str, bool]:
    """How much paler prints come out on cloth with this share of polyester (``little``, ``clearly``, ``much`` or ""),
    and whether the first washes take something off."""
    ons = [on for each in blends for on in each.on if on.share == share]
    off = max(on.off for on in ons)
    how = "" if off < HARDLY else "little" if off < SOFT else "clearly" if off < PALER else "much"
    return how, max(on.lost for on in ons) >= HARDLY


def blend(
    wanted: Lab, shares: Iterable[float] = SHARES, *, ground: Lab = WHITE_CLOTH, on_cotton: float = ON_COTTON
) -> Blend:
    """What becomes of a print that is ``wanted`` on white all-polyester cloth. ``on_cotton`` is the share of dye (of
    what polyester takes) that sits on cotton until the wash."""
    white, _ = nearest(WHITE_CLOTH)
    print_, print_taken = nearest(wanted)
    cloth, cloth_taken = nearest(ground)
    dyed, stained = (_dyed(cloth, white, print_, depth) for depth in (1.0, on_cotton))
    return Blend(
        wanted=wanted,
        ground=ground,
        full=colour_of(dyed),
        on=tuple(_on(share, dyed, stained, cloth) for share in shares),
        taken={one: other for one, other in ((wanted, print_taken), (ground, cloth_taken)) if one != other},
    )


def _dyed(cloth: Spectrum, white: Spectrum, print_: Spectrum, depth: float) -> Spectrum:
    """The cloth with ``depth`` of the ink that turns ``white`` into ``print_``: absorptions add up."""
    return tuple(
        reflectance(absorption(under) + depth * max(0.0, absorption(over) - absorption(bare)))
        for under, bare, over in zip(cloth, white, print_, strict=True)
    )


def _on(share: float, dyed: Spectrum, stained: Spectrum, cloth: Spectrum) -> OnBlend:
    fresh = _ways([(share, dyed), (1.0 - share, stained)])
    washed = _ways([(share, dyed), (1.0 - share, cloth)])
    full = colour_of(dyed)
    return OnBlend(
        share=share,
        fresh=fresh,
        washed=washed,
        off=ciede2000(full, washed.stated),
        lost=ciede2000(fresh.stated, washed.stated),
        threads=ciede2000(full, colour_of(cloth)) if 0.0 < share < 1.0 else 0.0,
    )


def _ways(parts: Parts) -> Ways:
    return Ways({name: colour_of(mixed(parts, way)) for name, way in WAYS.items()})
