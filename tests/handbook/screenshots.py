"""The pictures of the handbook that the README shows: ``python -m tests.handbook.screenshots [--dark] [FOLDER]``.

They are taken in the Chromium that the tests use, of a site built for it alone, at sizes that never change. The face
of the letters is the machine's own, so that another machine gives other bytes.
"""

import argparse
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from PIL import Image

from diagnose.handbook import building
from diagnose.handbook.care.cards import Card, sheet
from diagnose.handbook.site import site
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from tests.handbook.chromium import MISSING, chromium, installed, light, resize
from tests.handbook.dialogue import Person

FOLDER = building.SCREENSHOTS
PHONE, DESK, CARD = (390, 844), (1280, 800), (397, 561)  # the last as a browser prints a quarter of A4
HEAVIEST = 200_000  # bytes of one picture
CARDS = "care-cards.html"
WORKSHOP = Shop(name="The harbour workshop", handbook="https://handbook.example/")


@dataclass(frozen=True)
class Shot:
    """``page``: what to open; ``prepare``: what to do there before the picture is taken; ``printed``: as it comes
    out on paper, twice as large."""

    name: str
    size: tuple[int, int]
    page: str
    prepare: Callable[[Person], object] = lambda person: None
    printed: bool = False


def _ask(person: Person) -> None:
    person.open("?item=t-shirt-polyester&saw=press-box")
    person.press("Right, go on")


SHOTS = (
    Shot("front", DESK, "index.html"),
    Shot("defect", DESK, "defects/ghosting.html"),
    Shot("pictures", DESK, "pictures.html"),
    Shot("dialogue", PHONE, "diagnose.html", _ask),
    Shot("care-card", CARD, CARDS, printed=True),
)


def built(knowledge: Knowledge, folder: Path) -> Path:
    """The whole site, and a sheet of care cards beside it."""
    root = shipped_folder()
    files = site(knowledge, Shop(), building.read_changes(root), building.read_docs(root))
    building.write(folder / "pages", files)
    building.build(root, folder / "site", folder / "pages")
    card = Card(note=knowledge.care["blend"], item=knowledge.items["tea-towel-65-35"], shop=WORKSHOP)
    (folder / "site" / CARDS).write_text(sheet(card), encoding="utf-8")
    return folder / "site"


def taken(folder: Path, *, dark: bool = False) -> Iterator[tuple[str, bytes]]:
    """Each picture with its name, of the site in a folder."""
    with chromium(*DESK, dark=dark) as window:
        for shot in SHOTS:
            resize(window, *shot.size, scale=2 if shot.printed else 1)
            light(window, dark, printed=shot.printed)
            window.get(f"{folder.as_uri()}/{shot.page}")
            shot.prepare(Person(window, folder.as_uri()))
            _settle(window)
            yield f"{shot.name}.png", _light_weight(window.get_screenshot_as_png())


def _light_weight(picture: bytes) -> bytes:
    """The same with the 256 colours that come nearest."""
    packed = BytesIO()
    full = Image.open(BytesIO(picture)).convert("RGB")
    few = full.quantize(256, Image.Quantize.MAXCOVERAGE, kmeans=4, dither=Image.Dither.NONE)
    few.save(packed, "png", optimize=True)
    return packed.getvalue()


def _settle(window: Any) -> None:
    """Wait for what is still being drawn, and leave no focus ring or cursor in the picture."""
    window.execute_async_script(
        "const done = arguments[0]; document.activeElement.blur();"
        "const drawn = [...document.images].filter((one) => one.loading !== 'lazy' || one.getBoundingClientRect().top"
        " < innerHeight).map((one) => one.decode().catch(() => 0));"
        "Promise.all([document.fonts.ready, ...drawn]).then(() => setTimeout(done, 400))"
    )


def main(arguments: Sequence[str] | None = None) -> int:
    parser = argparse.ArgumentParser(prog="./dev screenshots", description="Take the pictures that the README shows.")
    parser.add_argument("folder", nargs="?", type=Path, default=Path(FOLDER), help=f"where to (default: {FOLDER})")
    parser.add_argument("--dark", action="store_true", help="as a device asks for that is set to dark")
    asked = parser.parse_args(arguments)
    if installed() is None:
        parser.error(MISSING)
    heavy = []
    asked.folder.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory() as folder:
        for name, picture in taken(built(load(), Path(folder)), dark=asked.dark):
            (asked.folder / name).write_bytes(picture)
            print(f"{asked.folder / name}: {len(picture) / 1000:.0f} kB")
            heavy += [name] if len(picture) > HEAVIEST else []
    if heavy:
        print(f"heavier than {HEAVIEST / 1000:.0f} kB: {', '.join(heavy)}", file=sys.stderr)
    return 1 if heavy else 0


if __name__ == "__main__":
    sys.exit(main())
