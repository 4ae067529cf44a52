"""An item as it lies in the press, and the settings it usually gets."""

from dataclasses import replace

from diagnose.knowledge.model import Item, Knowledge
from diagnose.press import pressing
from diagnose.press.heat.layers import Layer, Material, Platen
from diagnose.press.pressing import Body, Settings

PAPER = Material(conductivity=0.11, density=800.0, heat_capacity=1340.0, regain=0.06)
FOAM = Material(conductivity=0.12, density=750.0, heat_capacity=1000.0)
ALUMINIUM = Material(conductivity=160.0, density=2800.0, heat_capacity=880.0)
RESIN = Material(conductivity=0.19, density=1400.0, heat_capacity=1200.0)
POLYESTER = Material(conductivity=0.065, density=400.0, heat_capacity=1030.0, regain=0.004)
COTTON = Material(conductivity=0.071, density=400.0, heat_capacity=1280.0, regain=0.085)
HARD = {
    "metal": ALUMINIUM,
    "ceramic": Material(conductivity=1.3, density=2300.0, heat_capacity=840.0),
    "glass": Material(conductivity=1.0, density=2500.0, heat_capacity=750.0),
    "board": Material(conductivity=0.18, density=800.0, heat_capacity=1700.0, regain=0.06),
    "slate": Material(conductivity=2.2, density=2400.0, heat_capacity=1000.0),
    "plastic": RESIN,
    "padded": FOAM,
}
MUG_PLATEN = Platen(capacity=4e3, power=15e3)


def body_of(
    item: Item, knowledge: Knowledge, *, thickness: float | None = None, through_back: bool | None = None
) -> Body:
    """How the item lies in the press. ``thickness`` in metres where it is another than usual; ``through_back`` where
    it is known whether the heat comes through the item's back: None, as is usual for it."""
    fact = float(item.facts.get("item.thickness", 1.0))
    usual = _body(item, fact * 1e-3, False)
    body = replace(usual, wanted=pressing.wanted(usual))
    if thickness is None and through_back is None:
        return body
    other = _body(item, fact * 1e-3 if thickness is None else thickness, bool(through_back))
    return replace(other, wanted=body.wanted)


def usual_settings(item: Item) -> Settings:
    """The middle of the item's window."""
    if item.settings is None:
        return Settings(temperature=196.0, dwell=60.0)
    return Settings(temperature=sum(item.settings.temperature) / 2, dwell=sum(item.settings.dwell) / 2)


def _body(item: Item, thickness: float, through_back: bool) -> Body:
    wrapped = item.facts.get("item.shape") == "curved"
    if item.family in HARD:
        layers: tuple[Layer, ...] = (Layer(RESIN, 0.03e-3), Layer(HARD[item.family], thickness))
    else:
        part = float(item.facts.get("item.polyester", 100)) / 100
        layers = (Layer(_mixed(part), thickness),)
    return Body(
        item=layers,
        sheet=Layer(PAPER, 0.1e-3),
        cover=Layer(PAPER, 0.06e-3),
        under=() if wrapped else (Layer(FOAM, 8e-3), Layer(ALUMINIUM, 6e-3)),
        platen=MUG_PLATEN if wrapped else Platen(),
        reference=usual_settings(item),
        through_back=through_back,
    )


def _mixed(polyester: float) -> Material:
    return Material(
        conductivity=polyester * POLYESTER.conductivity + (1 - polyester) * COTTON.conductivity,
        density=400.0,
        heat_capacity=polyester * POLYESTER.heat_capacity + (1 - polyester) * COTTON.heat_capacity,
        regain=polyester * POLYESTER.regain + (1 - polyester) * COTTON.regain,
    )
