"""``presslore colour``: a print measured against its proof, one pair by hand or a sheet of an instrument."""

import sys
from math import isfinite
from pathlib import Path

import click

from diagnose.cli import exits
from diagnose.cli.asking.prompts import standard_input
from diagnose.cli.asking.typed import COLOUR
from diagnose.cli.options import shop_option
from diagnose.cli.press import colour_pages
from diagnose.cli.shop import leaving_out, shelf
from diagnose.cli.terminal.screen import print_json, screen_for
from diagnose.files.reading import MOST_BYTES, read
from diagnose.press.colour.judging import TOLERANCE, judge
from diagnose.press.colour.lab import Lab
from diagnose.press.colour.sheet import ColourPair, read_pairs

LIKE_THIS = "presslore colour --proof 52,40,20 --print 58,33,18"


@click.command(
    epilog=f'\b\nExamples:\n  {LIKE_THIS}\n  presslore colour --proof "95,0,0" --print "92,1,6"\n'
    "  presslore colour measured.csv\n  presslore colour measured.csv --tolerance 3 --csv > judged.csv"
)
@click.argument("file", required=False, type=click.Path(path_type=Path, exists=True, dir_okay=False, allow_dash=True))
@click.option("--proof", type=COLOUR, help="The colour wanted: L,a,b, #rrggbb or a plain word.")
@click.option("--print", "print_", type=COLOUR, help="The colour that came out.")
@click.option("--washed", is_flag=True, help="One piece before (proof) and after the wash (print).")
@click.option("--tolerance", type=click.FloatRange(0, 50, min_open=True), help="CIEDE2000 that passes.")
@shop_option
@click.option("--json", "form", flag_value="json", help="Print JSON.")
@click.option("--csv", "form", flag_value="csv", help="Print a sheet, a line for each pair.")
def colour(
    file: Path | None,
    proof: Lab | None,
    print_: Lab | None,
    washed: bool,
    tolerance: float | None,
    shop: Path | None,
    form: str | None,
) -> int:
    """Judge a print against its proof by their measured colours.

    FILE is a sheet that a colour instrument wrote (CSV; - for standard input): columns L, a, b with names, as lines of
    proof and print or side by side. Says how far they are apart, whether that passes, the grey-scale grades, what a
    person would call it, and which defect it points to. The tolerance is --tolerance, else that of shop.yaml.
    """
    if tolerance is not None and not isfinite(tolerance):
        raise click.UsageError("--tolerance: expected a number above 0, such as 2")
    pairs = _pairs(file, proof, print_)
    own = shelf.at(shop)
    leaving_out.tell(own)
    limit = tolerance or own.shop.tolerance or TOLERANCE
    judged = [colour_pages.Judged(pair, judge(pair.proof, pair.print_, limit)) for pair in pairs]
    if form == "json":
        print_json(colour_pages.to_plain(own.knowledge, judged, washed))
    elif form == "csv":
        screen_for(sys.stdout).document(colour_pages.sheet(judged).splitlines(keepends=True))
    else:
        colour_pages.page(screen_for(sys.stdout), own.knowledge, judged, washed)
    return exits.GOOD


def _pairs(file: Path | None, proof: Lab | None, print_: Lab | None) -> list[ColourPair]:
    if file is None:
        if proof is None or print_ is None:
            missing = "--print" if proof else "--proof" if print_ else "two colours or a file"
            raise click.UsageError(f"{missing} is missing, such as: {LIKE_THIS}")
        return [ColourPair("", proof, print_, 0)]
    if print_ is not None:
        raise click.UsageError("--print beside a file: the prints stand in the file; --proof may go with it")
    content = standard_input(MOST_BYTES) if str(file) == "-" else read(file)
    return read_pairs(content, str(file), proof)
