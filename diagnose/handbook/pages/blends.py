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
from diagnose.speech.saying import say

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
HEAD = ("Polyester", "Fresh", "Washed", "Off", "Lost", "Spread")
COMMAND = "presslore blend --print red --share 65 --ground cream"


@cache
def _blends() -> tuple[tuple[str, Blend], ...]:
    """The prints that are shown, reckoned once."""
    return tuple((each, blend(PRINTS[each], SHARES)) for each in SHOWN)


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The one page."""
    links = Links("blends.md")
    lines = [say("blends-lead"), "{ .lead }", ""]
    for title, found in _blends():
        lines += [f'<figure class="cloth">{_strip(title, found)}</figure>', ""]
    lines += [
        *section(
            say("in-numbers"),
            [say("blends-numbers"), "", _table(), "", say("blends-trust"), ""],
            "numbers",
        ),
        *section("Why", [say("blends-why"), ""], "why"),
        *section(say("what-to-tell-the-customer"), _customer(), "customer"),
        *section(say("on-tinted-cloth"), _grounds(), "tinted"),
        *section(say("your-own-colours"), [say("by-lab-values-of-your-own", command=COMMAND), ""], "own"),
        _basis(book, links),
        "{ .source }",
    ]
    return iter(
        [Leaf(path=links.start, title=say("colour-on-blends"), lines=tuple(lines), boost=1.5, tags=("cotton blend",))]
    )


def _strip(title: str, found: Blend) -> str:
    bare = colour_of(nearest(found.ground)[0])
    fresh = [Panel(on.fresh.stated) for on in found.on]
    washed = [
        Panel(on.washed.stated, share_words(on.share), (found.full, bare) if on.share < 1.0 else None, on.share)
        for on in found.on
    ]
    told = "; ".join(f"{cloth(on.share)}: {becomes(found, on)}" for on in found.on)
    words = say("print-on-cloth-of", title=title, shares=listed([share_words(share) for share in SHARES]))
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
        "cloth-tinted", say("the-same-red-on-five-grounds"), f"{'; '.join(told)}.", [("bare", bare), ("print", printed)]
    )
    tinted = [plain(said) for ground, each in found.items() if (said := of_ground(each, ground))]
    return [
        say("blends-ground"),
        "",
        f'<figure class="cloth">{drawn}</figure>',
        "",
        *(f"- {line}" for line in tinted),
        "",
    ]


def _basis(book: Handbook, links: Links) -> str:
    known = [each for each in SOURCES if each in book.knowledge.sources]
    basis = phrases.basis(book, links, [*known, "common practice"])
    return say("blends-basis", basis=basis)
