"""What the same print comes to on cloth with less polyester: strips to look at, numbers to read, words to tell."""

from collections.abc import Iterator
from functools import cache

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.cloth import Panel, strip
from diagnose.handbook.leaf import Leaf, section
from diagnose.handbook.links import Links
from diagnose.handbook.text import listed, markup, plain
from diagnose.press.colour.blend import SHARES, Blend, OnBlend, blend
from diagnose.press.colour.named import GROUNDS, PRINTS
from diagnose.press.colour.spectrum import colour_of, nearest
from diagnose.speech.colour import becomes, cloth, for_customer, name, of_ground, share_words

SHOWN = ("black", "red", "blue", "yellow")
ON_GROUNDS = ("white", "cream", "pale blue", "grey", "navy")
SOURCES = (
    "heywood-lambert-1977",
    "burns-2020",
    "stearns-noechel-1944",
    "philips-invernizzi-2002",
    "friele-1952",
    "kubelka-munk-1931",
)
LEAD = (
    "Dye goes into polyester and only sits on cotton. The more cotton in the cloth, the paler the print, and the first "
    "washes take more of it away."
)
WHY = (
    "At the press the dye is a gas. Polyester opens to it in the heat and closes over it as it cools; cotton has no "
    "place for it. What lies on the cotton fibres colours them for a while, then goes down the drain, and bare threads "
    "show between dyed ones: the cloth looks heathered."
)
TRUST = (
    "These are predictions, and screens differ: press a piece of the very cloth, wash it twice, and show that to the "
    "customer. Three published ways of adding fibres up are reckoned; the colours here are by the lightest of them, "
    "which was made for blended yarn, and the spread says how far the three lie apart. How much dye cotton holds until "
    "the wash is a round "
    "figure of ours (common practice: some; a quarter of what polyester takes)."
)
GROUND = (
    "The ink has no white and covers nothing: what the cloth swallows of the light, it goes on swallowing under the "
    "print. Each piece below has the same red, bare cloth above and printed below, on all polyester."
)
HEAD = ("Polyester", "Fresh", "Washed", "Off", "Lost", "Spread")
NUMBERS = (
    "L, a and b of each print. Off: how far it is, washed, from the same on all polyester. Lost: what the wash takes. "
    "Spread: how far three ways of reckoning lie apart. All three by CIEDE2000: up to 2 passes by common practice."
)
COMMAND = "presslore blend --print red --share 65 --ground cream"


@cache
def _blends() -> tuple[tuple[str, Blend], ...]:
    """The prints that are shown, reckoned once."""
    return tuple((each, blend(PRINTS[each], SHARES)) for each in SHOWN)


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The one page."""
    links = Links("blends.md")
    lines = [LEAD, "{ .lead }", ""]
    for title, found in _blends():
        lines += [f'<figure class="cloth">{_strip(title, found)}</figure>', ""]
    lines += [
        *section("In numbers", [NUMBERS, "", _table(), "", TRUST, ""], "numbers"),
        *section("Why", [WHY, ""], "why"),
        *section("What to tell the customer", _customer(), "customer"),
        *section("On tinted cloth", _grounds(), "tinted"),
        *section(
            "Your own colours", [f"By Lab values of your own, and any share of polyester: `{COMMAND}`", ""], "own"
        ),
        _basis(book, links),
        "{ .source }",
    ]
    return iter(
        [Leaf(path=links.start, title="Colour on blends", lines=tuple(lines), boost=1.5, tags=("cotton blend",))]
    )


def _strip(title: str, found: Blend) -> str:
    bare = colour_of(nearest(found.ground)[0])
    fresh = [Panel(on.fresh.stated) for on in found.on]
    washed = [
        Panel(on.washed.stated, share_words(on.share), (found.full, bare) if on.share < 1.0 else None, on.share)
        for on in found.on
    ]
    told = "; ".join(f"{cloth(on.share)}: {becomes(found, on)}" for on in found.on)
    words = (
        f"A {title} print on cloth of {listed([share_words(share) for share in SHARES])} polyester, fresh and washed"
    )
    return strip(f"cloth-{title}", words, f"{told}.", [("fresh", fresh), ("washed", washed)])


def _table() -> str:
    head = "".join(f'<th scope="col">{cell}</th>' for cell in HEAD)
    lines = ['<table class="settings">', f"<thead><tr>{head}</tr></thead>"]
    for title, found in _blends():
        said = f"{title.capitalize()}: {found.wanted} on all polyester"
        group = f'<tr><th colspan="{len(HEAD)}" scope="rowgroup">{said}</th></tr>'
        lines += ["<tbody>", group, *(_row(on) for on in found.on if on.share < 1.0), "</tbody>"]
    return "\n".join([*lines, "</table>"])


def _row(on: OnBlend) -> str:
    cells = {
        "Fresh": f"{on.fresh.stated} ({name(on.fresh.stated)})",
        "Washed": f"{on.washed.stated} ({name(on.washed.stated)})",
        "Off": f"{on.off:.1f}",
        "Lost": f"{on.lost:.1f}",
        "Spread": f"{on.washed.spread:.1f}",
    }
    rest = "".join(f'<td data-name="{title}">{markup(_rounded(value))}</td>' for title, value in cells.items())
    return f'<tr><th scope="row">{share_words(on.share)}</th>{rest}</tr>'


def _rounded(text: str) -> str:
    return text.replace("-0.0", "0.0")


def _customer() -> list[str]:
    blends = [found for _, found in _blends()]
    return [f"- **{cloth(share).capitalize()}**: {plain(for_customer(blends, share))}" for share in (*SHARES,)] + [""]


def _grounds() -> list[str]:
    found = {ground: blend(PRINTS["red"], [1.0], ground=GROUNDS[ground]) for ground in ON_GROUNDS}
    bare = [Panel(each.ground) for each in found.values()]
    printed = [Panel(each.full, ground) for ground, each in found.items()]
    told = [f"{ground}: {each.full} ({name(each.full)})" for ground, each in found.items()]
    drawn = strip(
        "cloth-tinted", "The same red on five grounds", f"{'; '.join(told)}.", [("bare", bare), ("print", printed)]
    )
    tinted = [plain(said) for ground, each in found.items() if (said := of_ground(each, ground))]
    return [GROUND, "", f'<figure class="cloth">{drawn}</figure>', "", *(f"- {line}" for line in tinted), ""]


def _basis(book: Handbook, links: Links) -> str:
    known = [each for each in SOURCES if each in book.knowledge.sources]
    basis = phrases.basis(book, links, [*known, "common practice"])
    return f"L, a, b under daylight D65; distances by CIEDE2000. Basis: {basis}"
