"""The files of a new shop folder, and writing them whole or not at all."""

import json
import os
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from diagnose.files.writing import folder_beside, settle, write_new
from diagnose.problems import PressloreError

SHOP_YAML = """\
# What this shop says of itself. Whatever is left out keeps its default; presslore rules check finds mistakes.
name: {name}
currency: {currency}
units: {{temperature: {temperature}, pressure: {pressure}}}

# What things cost here, in the currency above. The next step is chosen by what a good print is expected to cost.
rates:
  minute: 0.5        # one minute of work and press time
  waiting: 0.025     # one minute that a press cools or goods are on their way
  paper: 0.4         # one printed sheet
  scrap: 0.5         # scrap cloth for a test press
  blank: 3           # a blank whose kind is not known
  help: 120          # the bill for calling help
  help-minutes: 120  # and the wait for it

# How far a measured print may be from its proof and still pass (CIEDE2000). 2 is common practice.
# tolerance: 2

# The presses, each with what is known of it. Take the # away and write your own.
# presses:
#   - id: left                        # what rules and --press call it
#     title: The press by the window
#     facts: {{press.kind: swing-away}} # clamshell, swing-away, drawer, mug-press, oven or calender
#     known:
#       - cause: platen-runs-cool     # an id from: presslore causes
#         turns-up: often             # how often in jobs on this press: a word of the scale, or a number
#         since: March
#         note: runs 6 °C cool at the left rear corner
"""
RULES_README = """\
# Rules of this shop

One file for each defect, called by the defect's id (`presslore defects` lists them). A file of yours adds to what
ships:

```yaml
# rules/water-marks.yaml
adds-to: water-marks
status: trial
date: 2026-11-24
rules:
  - cause: sheet-not-held
    brings: rarely
    if: {item.family: cloth}
    why: Our door stands open; a loose sheet lifts in the wind, and spray gets under it.
    basis: this shop's cases
```

`presslore rules check` reads all of it and names what is wrong. A file that cannot be used is left out; the others
and what ships stay in force.
"""
KB_README = """\
# What the rules of this shop lean on

Causes, checks, fixes, items and words of your own, in files of any name that ends in `.yaml`. The same id as a
shipped one takes its place; `retire` takes one out of use:

```yaml
# kb/own.yaml
glossary:
  platen:
    term: Platen
    means: The heated upper plate. Ours is painted red at the corner that runs cool.
    basis: this shop's cases
retire:
  items: [slate]
```

A cause needs a rule that leads to it, a check that finds it and a fix that puts it right: `presslore rules check`
says what is missing. The shape of these files: `presslore schema kb`.
"""
README = """\
# {title}

What this shop knows about its own presses, on top of what ships with presslore. Keep it under version control, or
copy it with your other papers.

- `shop.yaml`: name, units, prices, presses and what is known of them
- `rules/`: what brings defects on here
- `kb/`: causes, checks, fixes, items and words of our own
- `mkdocs.yml`: settings of our own for the handbook

presslore finds this folder when you work in it or below it. From elsewhere, name it: `--shop`, or the variable
`PRESSLORE_SHOP`.

```sh
presslore shop show     # what is in force, and where it came from
presslore rules check   # everything that is wrong, with file, line and column
presslore diagnose      # uses all of it
```
"""
MKDOCS = """\
# Settings of this shop for the handbook; they take the place of those that ship. There are five: site_name,
# site_description, site_author, site_url and copyright.
site_name: {name}
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldShop:
    """What a new shop says of itself: its name, the currency before amounts, and the units shown first."""

    name: str
    currency: str = ""
    temperature: str = "C"
    pressure: str = "bar"


def files(told: ToldShop) -> Mapping[str, str]:
    """The files of a new shop folder, by path."""
    name = _quoted(told.name)
    shop = SHOP_YAML.format(
        name=name, currency=_quoted(told.currency), temperature=told.temperature, pressure=told.pressure
    )
    return {
        "shop.yaml": shop,
        "rules/README.md": RULES_README,
        "kb/README.md": KB_README,
        "mkdocs.yml": MKDOCS.format(name=_quoted(f"{told.name}: press handbook")),
        "README.md": README.format(title=told.name),
    }


def write(folder: Path, told: ToldShop) -> None:
    """Lay out the folder: beside its place first, then renamed, so that it is there whole or not at all.

    Raises PressloreError where something is there already, or the disk refuses.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise PressloreError(f"{folder}: this is not empty - expected a folder that is new or empty")
    whole = folder.absolute()
    try:
        whole.parent.mkdir(parents=True, exist_ok=True)
        with folder_beside(whole) as beside:
            _fill(beside, files(told))
            if sys.platform == "win32" and whole.is_dir():  # an empty one; nothing takes its place there
                whole.rmdir()
            os.replace(beside, whole)
            settle([whole.parent])
    except OSError as error:
        raise PressloreError(f"{folder}: cannot be laid out ({error.strerror or error})") from error


def _fill(folder: Path, texts: Mapping[str, str]) -> None:
    for name, text in texts.items():
        path = folder / name
        path.parent.mkdir(exist_ok=True)
        write_new(path, text.encode())


def _quoted(text: str) -> str:
    """A text as YAML reads it back, whatever it holds."""
    return json.dumps(text, ensure_ascii=False)
