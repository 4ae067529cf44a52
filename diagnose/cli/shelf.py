"""Where the command finds its knowledge: what ships, with the shop's own folder laid over it."""

import os
from dataclasses import dataclass, field
from pathlib import Path

from diagnose.knowledge.loading import SHOP_FILE, load, load_shop, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.problems import Place, PressloreError, Problem

SHOP_VARIABLE = "PRESSLORE_SHOP"
PARTS = ("rules", "kb")


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """All that a command works with. ``folder``: the shop's, None where there is none. ``places``: the shop's files
    that were left out, ``problems``: why."""

    knowledge: Knowledge
    shop: Shop = field(default_factory=Shop)
    folder: Path | None = None
    places: tuple[Place, ...] = ()
    problems: tuple[Problem, ...] = ()

    @property
    def files_left_out(self) -> tuple[str, ...]:
        """The shop's files that were left out, as a reader finds them."""
        return tuple(place.file for place in self.places)


def at(named: Path | None = None) -> Shelf:
    """The knowledge with the shop's laid over it: the shop of the folder or file named, else of the one that the
    environment names, else of a shop.yaml in this folder or above it; without one, what ships.

    Files of the shop that do not serve are left out. Raises PressloreError where a shop that was named is not there.
    """
    found = find_shop(named)
    if found is None:
        return Shelf(knowledge=shipped())
    stock = load_shop(found)
    return Shelf(
        knowledge=stock.knowledge,
        shop=stock.shop,
        folder=_folder(found),
        places=stock.left_out,
        problems=stock.problems,
    )


def shipped() -> Knowledge:
    """The shipped knowledge, from the compiled cache where it is current. Raises PressloreError."""
    return load(shipped_folder())


def knowledge(named: Path | None = None) -> Knowledge:
    """What ships with the shop's own laid over it."""
    return at(named).knowledge


def shop(named: Path | None = None) -> Shop:
    """What the shop says of itself: its prices, units and presses."""
    return at(named).shop


def shop_folder(named: Path | None = None) -> Path | None:
    """The shop's folder, None where there is none."""
    found = find_shop(named)
    return found and _folder(found)


def left_out(named: Path | None = None) -> list[Problem]:
    """Why files of the shop are left out: every problem in them."""
    return list(at(named).problems)


def find_shop(named: Path | None = None) -> Path | None:
    """The shop's folder or file. Raises PressloreError where one was named in which there is no shop."""
    environment = os.environ.get(SHOP_VARIABLE)
    wanted = named or (Path(environment) if environment else None)
    if wanted is None:
        return _above()
    if wanted.is_file() or any((wanted / part).exists() for part in (SHOP_FILE, *PARTS)):
        return wanted
    wrong = "there is no shop here" if wanted.exists() else "this is not there"
    expected = "a shop.yaml, or a folder with shop.yaml, rules/ or kb/"
    hint = "presslore shop new lays one out"
    raise PressloreError([Problem(place=Place(str(wanted)), code="no-shop", wrong=wrong, expected=expected, hint=hint)])


def _folder(shop: Path) -> Path:
    return shop.parent if shop.is_file() else shop


def _above() -> Path | None:
    """The nearest folder with a shop.yaml, from the working folder upwards; none where that is gone."""
    try:
        folder = Path.cwd()
    except OSError:
        return None
    return next((one for one in (folder, *folder.parents) if (one / SHOP_FILE).is_file()), None)


def state_folder() -> Path:
    """Where sessions that were left are kept."""
    base = os.environ.get("XDG_STATE_HOME") or Path.home() / ".local" / "state"
    return Path(base) / "presslore"
