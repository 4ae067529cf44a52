"""``presslore schema``: the JSON Schemas of what presslore reads and prints, for editors and other programs."""

import sys
from importlib.resources import files

import click

from diagnose.cli.terminal.screen import screen_for

PLACES = {
    "diagnosis": ("diagnose.dialogue", "diagnosis.json"),
    "job": ("diagnose.knowledge", "job.json"),
    "kb": ("diagnose.knowledge", "kb.json"),
    "ready": ("diagnose.dialogue", "ready.json"),
    "rule": ("diagnose.knowledge", "rule.json"),
    "settings": ("diagnose.dialogue", "settings.json"),
    "shop": ("diagnose.knowledge", "shop.json"),
    "taking": ("diagnose.casebook", "taking.json"),
}


@click.command(epilog="\b\nExample: presslore schema diagnosis")
@click.argument("name", type=click.Choice(sorted(PLACES)))
def schema(name: str) -> None:
    """Print a JSON Schema.

    diagnosis, ready and settings are what diagnose, ready and settings print with --json, taking is what rules take
    does; job, kb, rule and shop are the files that people write.
    """
    package, file = PLACES[name]
    screen_for(sys.stdout).document([files(package).joinpath("schema", file).read_text(encoding="utf-8")])
