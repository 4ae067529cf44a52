"""Many stacks at once come to what each comes to alone."""

import pytest

from diagnose.press.dye.dose import dose
from diagnose.press.heat.layers import Platen, Slab, ThermalMaterial
from diagnose.press.heat.soaking import soak
from diagnose.press.heat.stack import Stack, stacked
from tests.bench.many import TOGETHER, doses, soak_many

PAPER = ThermalMaterial(conductivity=0.18, density=930.0, heat_capacity=1340.0, regain=0.06)
CLOTH = ThermalMaterial(conductivity=0.07, density=400.0, heat_capacity=1280.0, regain=0.05)
FOAM = ThermalMaterial(conductivity=0.12, density=750.0, heat_capacity=1000.0)


def pile(contact: float, capacity: float) -> Stack:
    return stacked(Platen(capacity=capacity), (Slab(PAPER, 1e-4),), (Slab(CLOTH, 6e-4), Slab(FOAM, 8e-3)), contact)


def test_each_as_alone() -> None:
    stacks = [pile(1e-4 * (place + 1), 4e3 * (place + 1)) for place in range(6)]
    settings, ends = [190.0, 195.0, 200.0, 205.0, 180.0, 210.0], [60.0, 3.0, 45.0, 200.0, 90.0, 0.3]
    clock, at_dye = soak_many(stacks, settings, ends)
    together = doses(clock, at_dye, 200.0)
    for place, (stack, setting, end) in enumerate(zip(stacks, settings, ends, strict=True)):
        moments = soak(stack, setting, end)
        assert at_dye[-1, place] == pytest.approx(moments[-1].at_dye(stack), abs=1e-3)
        assert clock[-1, place] == end
        alone = dose([each.time for each in moments], [each.at_dye(stack) for each in moments], 200.0)
        assert together[place] == pytest.approx(alone, rel=1e-4)


def test_more_than_go_together() -> None:
    stacks = [pile(2e-4, 5e4)] * (TOGETHER + 3)
    clock, at_dye = soak_many(stacks, [200.0] * len(stacks), [1.0] * len(stacks))
    assert at_dye.shape == clock.shape == (11, len(stacks))
    assert float(abs(at_dye - at_dye[:, :1]).max()) == 0.0


def test_stacks_of_other_build_are_refused() -> None:
    other = stacked(Platen(), (), (Slab(FOAM, 8e-3),), 2e-4)
    with pytest.raises(ValueError, match="same number of cells"):
        soak_many([pile(2e-4, 5e4), other], [200.0, 200.0], [1.0, 1.0])
