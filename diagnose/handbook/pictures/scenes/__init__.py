"""All scenes, by the id of the defect they show."""

from diagnose.handbook.pictures.scene import Scene
from diagnose.handbook.pictures.scenes import cloth, curved, depth, hard, hue, later, outline, paper, strewn, worn

SCENES: dict[str, Scene] = {
    **depth.SCENES,
    **hue.SCENES,
    **outline.SCENES,
    **strewn.SCENES,
    **paper.SCENES,
    **cloth.SCENES,
    **hard.SCENES,
    **later.SCENES,
    **worn.SCENES,
    **curved.SCENES,
}
