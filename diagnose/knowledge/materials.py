"""What items are made of: properties of materials, and how a kind of item is built up and heated."""

from dataclasses import dataclass, field
from typing import Final

from diagnose.knowledge.entry import Entry, MaterialId, stands

BACK: Final = "back"
ROUND: Final = "round"
MILLIMETRE: Final = 1e-3


@dataclass(frozen=True, slots=True)
class Property:
    """A number and on whose word it stands."""

    value: float
    basis: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Material(Entry):
    """``conductivity`` W/(m K), ``density`` kg/m³, ``heat_capacity`` J/(kg K), ``regain``: kg of water for each kg of
    dry stuff in the air of a workshop (None: none worth telling). Each of them has a basis of its own."""

    basis: tuple[str, ...] = field(default=(), init=False)
    conductivity: Property
    density: Property
    heat_capacity: Property
    regain: Property | None = None

    @property
    def properties(self) -> dict[str, Property]:
        """By the name each is written under."""
        told = {
            "conductivity": self.conductivity,
            "density": self.density,
            "heat-capacity": self.heat_capacity,
            "regain": self.regain,
        }
        return {key: value for key, value in told.items() if value is not None}


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyLayer:
    """A layer of an item. ``rest``: the material of the share of a cloth that is not polyester. ``thickness`` in
    metres; None: as thick as the item is."""

    material: MaterialId
    rest: MaterialId = ""
    thickness: float | None = field(default=None, metadata=stands("thickness", unit=MILLIMETRE))


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyPlan:
    """How an item is built up, printed face first, and from where the heat comes: its ``face`` (through the sheet),
    its ``back``, or ``round`` it (a wrapped element, the inside in the air). What is empty is as in its family."""

    layers: tuple[BodyLayer, ...] = ()
    heated: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyBody(Entry):
    """How items of a family are built up, unless one says otherwise. Its id is the family's."""

    plan: BodyPlan = field(metadata=stands())
