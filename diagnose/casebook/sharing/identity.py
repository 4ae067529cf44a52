"""The id by which other shops tell that a bundle is a newer one of the same shop: made at the first share, and kept."""

import json
import secrets
from contextlib import suppress
from pathlib import Path

from diagnose.files.reading import place_of, read_if_there
from diagnose.files.writing import write_new
from diagnose.knowledge.taken import wrong_with_shop
from diagnose.problems import PressloreError

FILE = "sharing.json"
LETTERS = "bdfghjkmnprstvwxz"  # none looks like another, and no word comes of them; twelve make 49 bits


def new_id() -> str:
    """An id that no other shop has."""
    return "-".join("".join(secrets.choice(LETTERS) for _ in range(4)) for _ in range(3))


def keep(folder: Path, shop: str) -> None:
    """Have a shop keep its id from now on. Raises PressloreError where another was made for it in the same moment."""
    if not known_id(folder):
        with suppress(PressloreError):  # where somebody else was first, it shows below
            write_new(folder / FILE, (json.dumps({"shop": shop}) + "\n").encode())
    if known_id(folder) != shop:
        raise PressloreError(f"{folder / FILE}: the shop's id could not be kept here; nothing was shared: try again")


def known_id(folder: Path) -> str:
    """The id of the shop in a folder, "" where it has shared nothing yet. Raises PressloreError."""
    path = folder / FILE
    data = read_if_there(path, most=10_000)
    if data is None:
        return ""
    try:
        shop = json.loads(data)["shop"]
        if not isinstance(shop, str) or wrong_with_shop(shop):
            raise ValueError
    except (ValueError, LookupError, TypeError, RecursionError) as error:
        hint = (
            "put it back from your copy; without it the shops that took your rules do not know the next bundle as yours"
        )
        raise PressloreError(
            f"{place_of(error, str(path))}: this holds no id of a shop - {hint}, and a new id is made"
        ) from error
    return shop
