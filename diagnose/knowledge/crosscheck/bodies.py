"""Checks of what items are made of: can every one be laid under the press in thought?"""

from collections.abc import Iterator

from diagnose.knowledge.crosscheck.broken import ids_in_broken
from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.entry import SHIPPED
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.materials import BodyPlan
from diagnose.knowledge.near import nearest
from diagnose.problems import Place

THICKNESS = "item.thickness"


def unknown_materials(layer: Layer) -> Iterator[Found]:
    """In the layers of families and items."""
    known = layer.ids("materials")
    for place, path, plan in _plans(layer):
        for index, each in enumerate(plan.layers):
            for key, material in (("material", each.material), ("rest", each.rest)):
                if material and material not in known:
                    at = layer.value_within(place, *path, "layers", index, key)
                    wrong = f'"{material}" is not among the materials'
                    yield Found(at, wrong, hint=nearest(material, known))
    for material, at in ids_in_broken(layer, "materials"):
        if material not in known:
            yield Found(at, f'"{material}" is not among the materials', hint=nearest(material, known))


def items_without_a_body(layer: Layer) -> Iterator[Found]:
    """Where families are told of, every item that is pressed is of one, or says how it is built up itself. A shop's own
    items need not: what cannot be reckoned says so when it is asked for."""
    for item in layer.items.values() if layer.bodies else ():
        if item.settings is None or item.origin != SHIPPED:
            continue
        family = layer.bodies.get(item.family)
        layers = (item.body.layers if item.body else ()) or (family.plan.layers if family else ())
        if not layers:
            wrong = f'nothing says what items of the family "{item.family}" are made of'
            yield Found(layer.key_within(item.place, "family"), wrong, "body: with layers, or the family among bodies")
        elif any(each.thickness is None for each in layers) and THICKNESS not in item.facts:
            wrong = "nothing says how thick the item is"
            yield Found(layer.key_within(item.place, "facts"), wrong, f"a fact {THICKNESS}, in millimetres")


def _plans(layer: Layer) -> Iterator[tuple[Place, tuple[str, ...], BodyPlan]]:
    yield from ((family.place, (), family.plan) for family in layer.bodies.values())
    yield from ((item.place, ("body",), item.body) for item in layer.items.values() if item.body)
