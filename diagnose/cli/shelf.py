"""Where the command finds its knowledge and the shop's own prices."""

import os
from pathlib import Path

from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.problems import PressloreError

SHOP_VARIABLE = "PRESSLORE_SHOP"
SHOP_FILE = "shop.yaml"


def knowledge() -> Knowledge:
    """The shipped knowledge, from the compiled cache where it is current. Raises PressloreError."""
    return load(shipped_folder())


def shop(named: Path | None = None) -> Shop:
    """The shop's own prices and units: from the file or folder named, else from the one that the environment
    names, else from a shop.yaml in this folder or above it, else the defaults. Raises PressloreError."""
    found = named or _from_environment() or _above(Path.cwd())
    if found is None:
        return Shop()
    from diagnose.knowledge.shop_file import read_shop

    return read_shop(found / SHOP_FILE if found.is_dir() else found)


def shop_folder(named: Path | None = None) -> Path | None:
    """The shop's folder; None where there is no shop. Raises PressloreError where none is at the place named."""
    found = named or _from_environment() or _above(Path.cwd())
    if found is None:
        return None
    folder = found if found.is_dir() else found.parent
    if not folder.is_dir():
        raise PressloreError(f"{folder}: there is no such folder")
    return folder


def _from_environment() -> Path | None:
    named = os.environ.get(SHOP_VARIABLE)
    return Path(named) if named else None


def _above(folder: Path) -> Path | None:
    return next((one / SHOP_FILE for one in (folder, *folder.parents) if (one / SHOP_FILE).is_file()), None)


def state_folder() -> Path:
    """Where sessions that were left are kept."""
    base = os.environ.get("XDG_STATE_HOME") or Path.home() / ".local" / "state"
    return Path(base) / "presslore"
