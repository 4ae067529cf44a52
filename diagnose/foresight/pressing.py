"""An item as it lies in the press, and the settings it usually gets."""

from collections.abc import Mapping
from dataclasses import replace

from diagnose.knowledge.materials import BACK, ROUND, BodyLayer, BodyPlan, Material
from diagnose.knowledge.model import Item, Knowledge
from diagnose.press import pressing
from diagnose.press.heat.layers import USUAL_PLATEN, USUAL_PRESSURE, Platen, Slab, ThermalMaterial
from diagnose.press.pressing import Body, PressSettings

# The rest of the pile, as materials of the knowledge and metres: assumptions of a usual small press.
SHEET, COVER = ("paper", 0.1e-3), ("paper", 0.06e-3)
UNDER = (("silicone-foam", 8e-3), ("aluminium", 6e-3))
WRAP = Platen(capacity=4e3, power=15e3)  # the thin element of a mug press, over the mug it touches
THICKNESS = "item.thickness"
PRESSURES: Mapping[str, float] = {"light": 15.0, "light to medium": 20.0, "medium": USUAL_PRESSURE, "firm": 50.0}


class NoBody(LookupError):
    """Nothing says what an item is made of, or how thick it is; the message says which."""


def body_of(
    item: Item, knowledge: Knowledge, *, thickness: float | None = None, through_back: bool | None = None
) -> Body:
    """How the item lies in the press. ``thickness`` in metres where it is another than usual; ``through_back`` where
    the heat comes another way than usual: through its back (True) or through the sheet (False);
    what is wrapped is heated all round whatever is said.

    What it wants stays what it gets by its usual settings, built and laid as usual.

    Raises:
        NoBody: the knowledge does not say what it is made of.
    """
    usual = _body(item, knowledge, None if THICKNESS in item.facts else thickness, None)
    body = replace(usual, wanted=pressing.wanted(usual))
    if thickness is None and through_back is None:
        return body
    return replace(_body(item, knowledge, thickness, through_back), wanted=body.wanted)


def usual_settings(item: Item) -> PressSettings:
    """The middle of the item's window; what most cloth gets where it has none."""
    sheets = 0 if item.body and item.body.heated == ROUND else 1
    if item.settings is None:
        return PressSettings(temperature=196.0, dwell=60.0, cover_sheets=sheets)
    return PressSettings(
        temperature=sum(item.settings.temperature) / 2,
        dwell=sum(item.settings.dwell) / 2,
        pressure=PRESSURES.get(item.settings.pressure, USUAL_PRESSURE),
        cover_sheets=sheets,
    )


def plan_of(item: Item, knowledge: Knowledge) -> BodyPlan:
    """How an item is built up and heated: what it says itself, else what its family says."""
    family = knowledge.bodies.get(item.family)
    own = item.body or BodyPlan()
    layers = own.layers or (family.plan.layers if family else ())
    if not layers:
        raise NoBody(f"nothing says what {item.title} is made of")
    return BodyPlan(layers=layers, heated=own.heated or (family.plan.heated if family else ""))


def material(knowledge: Knowledge, name: str) -> ThermalMaterial:
    """A material of the knowledge in the terms of the calculations."""
    if name not in knowledge.materials:
        raise NoBody(f'nothing is known of the material "{name}"')
    return _plain(knowledge.materials[name])


def _body(item: Item, knowledge: Knowledge, thickness: float | None, through_back: bool | None) -> Body:
    plan = plan_of(item, knowledge)
    wrapped = plan.heated == ROUND
    return Body(
        item=tuple(_layer(layer, item, knowledge, thickness) for layer in plan.layers),
        sheet=_made(knowledge, SHEET),
        cover=_made(knowledge, COVER),
        under=() if wrapped else tuple(_made(knowledge, each) for each in UNDER),
        platen=WRAP if wrapped else USUAL_PLATEN,
        reference=usual_settings(item),
        through_back=not wrapped and (plan.heated == BACK if through_back is None else through_back),
    )


def _thickness(item: Item) -> float:
    told = item.facts.get(THICKNESS)
    if isinstance(told, int | float) and told > 0:
        return float(told) * 1e-3
    raise NoBody(f"nothing says how thick {item.title} is (the fact {THICKNESS}, in millimetres)")


def _layer(layer: BodyLayer, item: Item, knowledge: Knowledge, thickness: float | None) -> Slab:
    made = material(knowledge, layer.material)
    polyester = item.facts.get("item.polyester", 100)
    if layer.rest and isinstance(polyester, int | float) and polyester < 100:
        made = _mixed(made, material(knowledge, layer.rest), float(polyester) / 100)
    if layer.thickness is not None:
        return Slab(made, layer.thickness)
    return Slab(made, _thickness(item) if thickness is None else thickness)


def _made(knowledge: Knowledge, of: tuple[str, float]) -> Slab:
    return Slab(material(knowledge, of[0]), of[1])


def _plain(told: Material) -> ThermalMaterial:
    return ThermalMaterial(
        conductivity=told.conductivity.value,
        density=told.density.value,
        heat_capacity=told.heat_capacity.value,
        regain=told.regain.value if told.regain else 0.0,
    )


def _mixed(one: ThermalMaterial, other: ThermalMaterial, share: float) -> ThermalMaterial:
    """A cloth of two fibres, each property by its share of the weight."""
    rest = 1.0 - share
    return ThermalMaterial(
        conductivity=share * one.conductivity + rest * other.conductivity,
        density=share * one.density + rest * other.density,
        heat_capacity=share * one.heat_capacity + rest * other.heat_capacity,
        regain=share * one.regain + rest * other.regain,
    )
