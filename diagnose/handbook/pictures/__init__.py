"""A drawing for every defect: a good piece beside a bad one, drawn from shapes of our own."""

from diagnose.handbook.pictures.scene import compose
from diagnose.handbook.pictures.scenes import SCENES

__all__ = ["alternative", "draw", "drawn"]


def draw(defect_id: str, title: str) -> str:
    """The picture of a defect as SVG, the same bytes each time; KeyError where there is none."""
    return compose(SCENES[defect_id], defect_id, title)


def alternative(defect_id: str) -> str:
    """What there is to see in the bad piece, for somebody who cannot see it; KeyError where there is no picture."""
    return SCENES[defect_id].alternative


def drawn() -> frozenset[str]:
    """The ids of all defects that have a picture."""
    return frozenset(SCENES)
