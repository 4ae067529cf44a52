"""``presslore blend``: what the same print comes to on cloth with less polyester, and what the wash leaves of it."""

import sys

import click

from diagnose.cli import exits
from diagnose.cli.asking.typed import SHARE, TypedColour
from diagnose.cli.press import blend_pages
from diagnose.cli.terminal.screen import print_json, screen_for
from diagnose.press.colour.blend import ON_COTTON, SHARES, WHITE_CLOTH, blend
from diagnose.press.colour.conversion import under_d65
from diagnose.press.colour.lab import Lab

USUAL = ("black", "red", "blue")


@click.command(
    "blend",
    epilog="\b\nExamples:\n  presslore blend\n  presslore blend --print navy --share 65 --ground cream\n"
    '  presslore blend --print "45,60,38" --print "#1f3f8f" --json',
)
@click.option(
    "--print", "prints", type=TypedColour("PRINTS"), multiple=True, help="A print on white polyester (may repeat)."
)
@click.option("--share", "shares", type=SHARE, multiple=True, help="Per cent of polyester (may repeat).")
@click.option("--ground", type=TypedColour("GROUNDS"), default=None, help="The bare cloth (else white).")
@click.option(
    "--on-cotton", type=SHARE, default=None, help="Dye that cotton holds until the wash, of polyester's (25 %)."
)
@click.option("--light", type=click.Choice(["D65", "D50"]), default="D65", help="Light that L,a,b were measured for.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def blend_(
    prints: tuple[Lab, ...],
    shares: tuple[float, ...],
    ground: Lab | None,
    on_cotton: float | None,
    light: str,
    as_json: bool,
) -> int:
    """Show what a print becomes on polyester and cotton, fresh and washed.

    Colours are L,a,b, #rrggbb or a plain word. Three published ways of adding fibres up are reckoned; the spread
    between them says how far to trust it. The dye that cotton holds until the wash is a round figure: press a trial.
    """
    wanted = prints or tuple(TypedColour("PRINTS").convert(word, None, None) for word in USUAL)
    cloth = under_d65(ground, light) if ground else WHITE_CLOTH
    found = [
        blend(
            under_d65(each, light),
            tuple(dict.fromkeys(shares)) or SHARES,
            ground=cloth,
            on_cotton=ON_COTTON if on_cotton is None else on_cotton,
        )
        for each in wanted
    ]
    if as_json:
        print_json(blend_pages.to_plain(found, ON_COTTON if on_cotton is None else on_cotton))
    else:
        blend_pages.page(screen_for(sys.stdout), found)
    return exits.GOOD
