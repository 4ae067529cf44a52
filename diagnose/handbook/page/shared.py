"""What both engines reckon and read with, compiled for the page's from where it stands on this side.

It is the same for every shop and every knowledge, so it goes with the engine; the scripts of ``engine/`` hold no
figure, word or name of their own that stands here.
"""

from typing import Any

from diagnose.dialogue import saving
from diagnose.knowledge.shop import PRESS_NAME


def shared() -> dict[str, Any]:
    """Plain JSON values by the part of the engine that they belong to. Always the same."""
    return {"session": _session()}


def _session() -> dict[str, Any]:
    return {"format": saving.FORMAT, "version": saving.VERSION, "pressName": PRESS_NAME}
