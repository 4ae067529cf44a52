"""What the page needs to make sense of measured figures: measures, windows, and what lies in the press.

An item's layers come as ``[material, metres, 1 where it is as thick as the item]``, a material as conductivity,
density, heat capacity and regain.
"""

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any, TypeAlias

from diagnose.foresight.likelihood import edges
from diagnose.foresight.pressing import WRAP, NoBody, body_of, plan_of, usual_settings
from diagnose.foresight.readings import dosed
from diagnose.knowledge.materials import ROUND
from diagnose.knowledge.measures import Measure, held
from diagnose.knowledge.model import Item, Knowledge
from diagnose.press.heat.layers import USUAL_PLATEN, Slab, ThermalMaterial
from diagnose.press.pressing import Body

Packed: TypeAlias = dict[str, Any]


def measures(knowledge: Knowledge, index: Mapping[str, int]) -> list[Packed]:
    """The measures, with causes told by their number."""
    return [_measure(measure, index) for measure in knowledge.readings.values()]


def _measure(measure: Measure, index: Mapping[str, int]) -> Packed:
    speaks = [_speaks(measure, cause, index[cause]) for cause in measure.speaks if cause in index]
    settles = {"settles": list(measure.settles)} if measure.settles else {}
    return {"id": measure.id, "error": held(measure.id, measure.error), **settles, "speaks": speaks}


def _speaks(measure: Measure, cause: str, number: int) -> list[Any]:
    """A cause by its number, the way out (-1 under, 1 over, 0 either), how far out the marks lie, how often figures lie
    between them, and 1 where it is weighed by the dose."""
    says = measure.speaks[cause]
    way = -1 if says.under else 1 if says.over else 0
    joint = [1] if dosed(measure.id, cause) else []
    return [number, way, edges(measure, cause), [list(band) for band in says.bands], *joint]


class PressGathering:
    """Gathers what lies in the press, each material once."""

    def __init__(self, knowledge: Knowledge) -> None:
        self.knowledge = knowledge
        self.materials: list[ThermalMaterial] = []
        self.about: Packed = {}

    def of(self, item: Item) -> Packed:
        """The item's windows and layers, as far as the knowledge tells them."""
        if item.settings is None:
            return {}
        usual = usual_settings(item)
        windows = [list(item.settings.temperature), list(item.settings.dwell)]
        told: Packed = {"windows": windows, "pressure": usual.pressure}
        if usual.cover_sheets:
            told["sheets"] = usual.cover_sheets
        try:
            return {**told, "body": self._body(item, body_of(item, self.knowledge))}
        except NoBody:
            return told

    def _body(self, item: Item, body: Body) -> Packed:
        plan = plan_of(item, self.knowledge)
        if plan.heated != ROUND:
            self.about["under"] = [self._layer(layer) for layer in body.under]
        self.about |= {"sheet": self._layer(body.sheet), "cover": self._layer(body.cover)}
        layers = [
            [*self._layer(layer), *([1] if told.thickness is None else [])]
            for layer, told in zip(body.item, plan.layers, strict=True)
        ]
        back = {"back": 1} if body.through_back else {}
        return {"layers": layers, **back, **({"round": 1} if plan.heated == ROUND else {})}

    def _layer(self, layer: Slab) -> list[float]:
        if layer.material not in self.materials:
            self.materials.append(layer.material)
        return [self.materials.index(layer.material), layer.thickness]

    def whole(self) -> Packed:
        """What lies about every item; empty where no item can be laid under the press."""
        if not self.about:
            return {}
        materials = [[m.conductivity, m.density, m.heat_capacity, m.regain] for m in self.materials]
        return {**self.about, "materials": materials, "platen": asdict(USUAL_PLATEN), "wrap": asdict(WRAP)}
