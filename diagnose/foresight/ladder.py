"""Goods that nobody here has pressed: a starting point from the heat model, and which pieces to press to find the rest.

What is like them gives the dose they want; their own layers say how long the heat takes to get there.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import exp, sqrt

from diagnose.foresight.dosing import spread_of
from diagnose.foresight.pressing import NoBody, body_of, material, plan_of, usual_settings
from diagnose.knowledge.model import Item, Knowledge
from diagnose.press.heat.layers import Slab
from diagnose.press.pressing import NINETY, Body, PressSettings, Result, Unreachable, dwell_for, press

UNTRIED = 0.2  # spread of the logarithm of the dose that goods get for being told of and not measured. An assumption.
STRIDE = 1.28  # spreads between the middle rung and the outer ones: four jobs in five lie between them
COOLER = 8.0  # K, for goods that yellow or soften before they are full
START, LONGER, SHORTER, GENTLER = "start", "longer", "shorter", "gentler"  # what a piece is pressed for
COAT = "polyester-resin"
COAT_THICKNESS = 0.03e-3  # m
SOFT = ("cloth", "blend", "padded")
THICKEST_COAT = 0.2e-3  # m: a first layer no thicker than this is a coat


@dataclass(frozen=True, slots=True, kw_only=True)
class Goods:
    """Goods as they were told. ``like``: the known item they come nearest to. ``thickness`` in metres, ``polyester`` as
    a share of 1; ``layers``: (material, metres), the printed face first, in place of the item's own."""

    like: Item
    thickness: float | None = None
    polyester: float | None = None
    layers: tuple[tuple[str, float], ...] = ()

    @property
    def soft(self) -> bool:
        return self.like.family in SOFT

    @property
    def gets_a_coat(self) -> bool:
        """Whether layers were told of hard goods, and none of them for their coat."""
        if self.soft or not self.layers:
            return False
        first, thickness = self.layers[0]
        return first != COAT and thickness > THICKEST_COAT


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """A piece to press. ``purpose``: ``start``, ``longer`` where that one is pale, ``shorter`` where it is soft,
    ``gentler`` where the goods suffered."""

    temperature: float
    dwell: float
    result: Result
    purpose: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """``start``: where to begin; ``dwells``: the seconds between which nine jobs in ten come right at that heat (the
    second is None where it lies beyond an hour); ``rungs``: the pieces, in the order in which to press them."""

    goods: Goods
    start: PressSettings
    dwells: tuple[float, float | None]
    spread: float
    rungs: tuple[Rung, ...]


def ladder(goods: Goods, knowledge: Knowledge) -> Ladder:
    """Where to begin with such goods, and the pieces to press.

    Raises:
        NoBody: nothing is known of what they are made of.
        Unreachable: no dwell within an hour is enough.
    """
    body = body_for(goods, knowledge)
    usual = usual_settings(goods.like)
    at = replace(usual, temperature=float(round(usual.temperature)))
    start = replace(at, dwell=dwell_for(body, at))
    spread = sqrt(spread_of(press(body, start)) ** 2 + UNTRIED**2)
    low, high = (_dwell(body, start, exp(side * NINETY * spread)) for side in (-1.0, 1.0))
    return Ladder(
        goods=goods,
        start=replace(start, dwell=rounded(start.dwell)),
        dwells=(low or start.dwell, high),
        spread=spread,
        rungs=tuple(_rungs(body, start, spread)),
    )


def body_for(goods: Goods, knowledge: Knowledge) -> Body:
    """How the goods lie in the press; what they want is what the item they are like wants."""
    usual = body_of(goods.like, knowledge)
    facts = dict(goods.like.facts)
    if goods.polyester is not None:
        facts["item.polyester"] = 100.0 * goods.polyester
    body = body_of(replace(goods.like, facts=facts), knowledge, thickness=goods.thickness)
    if goods.layers:
        body = replace(body, item=tuple(_layers(goods, knowledge)))
    return replace(body, wanted=usual.wanted)


def nearest(layers: Sequence[tuple[str, float]], knowledge: Knowledge) -> Item:
    """The known item that goods of these layers are most like: of the same main material, and about as thick.

    Raises:
        NoBody: no item is made of it, or the knowledge has no such material.
    """
    main, depth = max(layers, key=lambda layer: layer[1])
    material(knowledge, main)
    alike = [item for item in knowledge.items.values() if item.settings and main in _made_of(item, knowledge)]
    if not alike:
        raise NoBody(f"no item that is known is made of {main}; say which it is like")
    return min(alike, key=lambda item: (item.facts.get("item.shape") == "curved", _off(item, depth), item.id))


def rounded(dwell: float) -> float:
    """Seconds as a timer is set: by fives, from two minutes on by quarters of a minute."""
    stride = 5.0 if dwell < 120.0 else 15.0
    return max(5.0, stride * round(dwell / stride))


def _off(item: Item, depth: float) -> float:
    thick = item.facts.get("item.thickness", 1.0)
    return abs(float(thick) * 1e-3 - depth)


def _made_of(item: Item, knowledge: Knowledge) -> set[str]:
    try:
        return {layer.material for layer in plan_of(item, knowledge).layers if layer.thickness is None}
    except NoBody:
        return set()


def _layers(goods: Goods, knowledge: Knowledge) -> Iterator[Slab]:
    """The layers told, with a coat on hard goods where none was told."""
    if goods.gets_a_coat:
        yield Slab(material(knowledge, COAT), COAT_THICKNESS)
    for name, deep in goods.layers:
        yield Slab(material(knowledge, name), deep)


def _dwell(body: Body, settings: PressSettings, over: float) -> float | None:
    try:
        return dwell_for(body, settings, over)
    except Unreachable:
        return None


def _rungs(body: Body, start: PressSettings, spread: float) -> Iterator[Rung]:
    """The pieces to press, those that could not be told apart on a timer left out."""
    cooler = replace(start, temperature=start.temperature - COOLER)
    plan = (
        (start, 1.0, START),
        (start, exp(STRIDE * spread), LONGER),
        (start, exp(-STRIDE * spread), SHORTER),
        (cooler, 1.0, GENTLER),
    )
    taken: set[tuple[float, float]] = set()
    for settings, over, purpose in plan:
        dwell = _dwell(body, settings, over)
        if dwell is None or (settings.temperature, rounded(dwell)) in taken:
            continue
        at = replace(settings, dwell=rounded(dwell))
        taken.add((at.temperature, at.dwell))
        yield Rung(temperature=at.temperature, dwell=at.dwell, result=press(body, at), purpose=purpose)
