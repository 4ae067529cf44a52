"""Judging a colour difference: what the number means, what the grades mean, and what a miss points to."""

from collections.abc import Iterable, Iterator, Sequence

from diagnose.foresight.colour import DEFECTS, WASHED
from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.cloth import chips
from diagnose.handbook.leaf import Leaf, section
from diagnose.handbook.links import Links
from diagnose.handbook.text import markup
from diagnose.press.colour.grades import CHANGE_LIMITS, CHANGE_STEPS, GRADES, STAINING_STEPS
from diagnose.press.colour.judging import KINDS, TOLERANCE
from diagnose.press.colour.lab import Lab
from diagnose.speech.colour import seen, sign_words
from diagnose.speech.saying import say

LEAD = say("colour-lead")
HOW = (
    say("let-the-piece-cool"),
    say("measure-flat-patches"),
    say("compare-what-is-alike"),
    say("press-one-test-piece-and-change"),
)
BANDS = (0.0, 0.5, 1.0, 2.0, 5.0)
SOURCES = ("sharma-wu-dalal-2005", "iso-105-a02", "iso-105-a03", "iso-105-a04", "iso-105-a05")
CHANGE = say("colour-change-grades")
STAINING = say("colour-staining-grades")
COMMANDS = ("presslore colour --proof 52,40,20 --print 58,33,18", "presslore colour measured.csv")


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The one page."""
    links = Links("colour.md")
    lines = [
        LEAD,
        "{ .lead }",
        "",
        *section(say("what-the-distance-means"), _distances(book), "distance"),
        *section(say("how-to-measure"), [*(f"{n}. {text}" for n, text in enumerate(HOW, 1)), ""], "how"),
        *section(say("what-a-miss-points-to"), _kinds(book, links), "points-to"),
        *section(say("grades-for-change-of-colour"), _change(), "change"),
        *section(say("grades-for-staining"), _staining(), "staining"),
        *section(say("by-the-command"), [*(f"- `{command}`" for command in COMMANDS), ""], "command"),
        _basis(book, links),
        "{ .source }",
    ]
    yield Leaf(
        path=links.start, title=say("judging-a-colour-difference"), lines=tuple(lines), tags=("colour difference",)
    )


def _distances(book: Handbook) -> list[str]:
    limit = book.shop.tolerance or TOLERANCE
    whose = "in this shop" if book.shop.tolerance else "by common practice"
    rows = []
    for low, high in zip(BANDS, [*BANDS[1:], None], strict=True):
        span = f"{low:g} to {high:g}" if high else f"more than {low:g}"
        rows.append((span, {"To the eye": seen(low)}))
    return [
        say("colour-distance", whose=whose, limit=limit),
        "",
        _table(("Distance", say("to-the-eye")), rows),
        "",
    ]


def _kinds(book: Handbook, links: Links) -> list[str]:
    return [
        say("which-way-a-colour"),
        "",
        *(
            f"- **{kind.capitalize()}**, {sign_words(kind)}: {found}."
            for kind in KINDS
            if (found := _named(book, links, kind))
        ),
        "",
    ]


def _named(book: Handbook, links: Links, kind: str) -> str:
    known = book.knowledge.defects
    named = [links.entry("defects", each, known[each].title) for each in DEFECTS[kind] if each in known]
    washed = [links.entry("defects", each, known[each].title) for each in WASHED.get(kind, ()) if each in known]
    after = f"; where it was right before the wash, {', '.join(washed)}" if washed else ""
    return ", ".join(named) + after if named else ""


def _change() -> list[str]:
    limits = [*(f"under {limit:.2f}" for limit in CHANGE_LIMITS), f"{CHANGE_LIMITS[-1]:.2f} and more"]
    rows = [
        (grade, {"Grey scale": f"{step:.1f}", "Reckoned": limit})
        for grade, step, limit in zip(GRADES, CHANGE_STEPS, limits, strict=True)
    ]
    return [
        CHANGE,
        "",
        *_scale("change", CHANGE_STEPS, 40.0),
        _table(("Grade", say("grey-scale"), "Reckoned"), rows),
        "",
    ]


def _staining() -> list[str]:
    rows = [(grade, {"Grey scale": f"{step:.1f}"}) for grade, step in zip(GRADES, STAINING_STEPS, strict=True)]
    return [STAINING, "", *_scale("staining", STAINING_STEPS, 95.0), _table(("Grade", say("grey-scale")), rows), ""]


def _scale(name: str, steps: Sequence[float], start: float) -> list[str]:
    """The steps as pairs of greys: darker ones for change, white and grey for staining."""
    sign = 1.0 if start < 50.0 else -1.0
    pairs = [
        (grade, Lab(start, 0.0, 0.0), Lab(start + sign * step, 0.0, 0.0))
        for grade, step in zip(GRADES, steps, strict=True)
    ]
    told = "; ".join(f"grade {grade}: {step:g} apart" for grade, step in zip(GRADES, steps, strict=True))
    drawn = chips(f"scale-{name}", say("pairs-of-greys", name=name), f"{told}.", pairs)
    return [f'<figure class="cloth">{drawn}</figure>', "", say("drawn-to-show-the-idea"), ""]


def _table(head: Sequence[str], rows: Iterable[tuple[str, dict[str, str]]]) -> str:
    cells = "".join(f'<th scope="col">{cell}</th>' for cell in head)
    body = "".join(
        f'<tr><th scope="row">{markup(first)}</th>'
        + "".join(f'<td data-name="{title}">{markup(value)}</td>' for title, value in rest.items())
        + "</tr>"
        for first, rest in rows
    )
    return f'<table class="grades">\n<thead><tr>{cells}</tr></thead>\n<tbody>{body}</tbody>\n</table>'


def _basis(book: Handbook, links: Links) -> str:
    known = [each for each in SOURCES if each in book.knowledge.sources]
    return say("basis", basis=phrases.basis(book, links, [*known, "common practice"]))
