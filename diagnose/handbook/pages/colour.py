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

LEAD = (
    "A colour is three numbers: L from black (0) to white (100), a from green to red, b from blue to yellow. "
    "Measure proof and print the same way, and how far they are apart is one number."
)
HOW = (
    "Let the piece cool: a warm print reads otherwise. Lay it flat on the same white backing as the proof.",
    "Measure flat patches of one colour, in three places, and take the middle of the three.",
    "Compare what is alike: the same light, observer and instrument for both. Look in the light of its use.",
    "Press one test piece and change one thing at a time; then measure again.",
)
BANDS = (0.0, 0.5, 1.0, 2.0, 5.0)
SOURCES = ("sharma-wu-dalal-2005", "iso-105-a02", "iso-105-a03", "iso-105-a04", "iso-105-a05")
CHANGE = (
    "How much a colour has changed, as by washing or light: 5 is no change. The first number is the contrast of that "
    "step on the grey scale, the second the reckoned difference up to which the step is given."
)
STAINING = "How much colour white cloth has taken up from a print beside it: 5 is none."
COMMANDS = ("presslore colour --proof 52,40,20 --print 58,33,18", "presslore colour measured.csv")


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The one page."""
    links = Links("colour.md")
    lines = [
        LEAD,
        "{ .lead }",
        "",
        *section("What the distance means", _distances(book), "distance"),
        *section("How to measure", [*(f"{n}. {text}" for n, text in enumerate(HOW, 1)), ""], "how"),
        *section("What a miss points to", _kinds(book, links), "points-to"),
        *section("Grades for change of colour", _change(), "change"),
        *section("Grades for staining", _staining(), "staining"),
        *section("By the command", [*(f"- `{command}`" for command in COMMANDS), ""], "command"),
        _basis(book, links),
        "{ .source }",
    ]
    yield Leaf(path=links.start, title="Judging a colour difference", lines=tuple(lines), tags=("colour difference",))


def _distances(book: Handbook) -> list[str]:
    limit = book.shop.tolerance or TOLERANCE
    whose = "in this shop" if book.shop.tolerance else "by common practice"
    rows = []
    for low, high in zip(BANDS, [*BANDS[1:], None], strict=True):
        span = f"{low:g} to {high:g}" if high else f"more than {low:g}"
        rows.append((span, {"To the eye": seen(low)}))
    return [
        f"By CIEDE2000, which weighs lightness, chroma and hue like the eye. A print passes {whose} up to {limit:g}.",
        "",
        _table(("Distance", "To the eye"), rows),
        "",
    ]


def _kinds(book: Handbook, links: Links) -> list[str]:
    return [
        "Which way a colour is off says more than how far.",
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
    return [CHANGE, "", *_scale("change", CHANGE_STEPS, 40.0), _table(("Grade", "Grey scale", "Reckoned"), rows), ""]


def _staining() -> list[str]:
    rows = [(grade, {"Grey scale": f"{step:.1f}"}) for grade, step in zip(GRADES, STAINING_STEPS, strict=True)]
    return [STAINING, "", *_scale("staining", STAINING_STEPS, 95.0), _table(("Grade", "Grey scale"), rows), ""]


def _scale(name: str, steps: Sequence[float], start: float) -> list[str]:
    """The steps as pairs of greys: darker ones for change, white and grey for staining."""
    sign = 1.0 if start < 50.0 else -1.0
    pairs = [
        (grade, Lab(start, 0.0, 0.0), Lab(start + sign * step, 0.0, 0.0))
        for grade, step in zip(GRADES, steps, strict=True)
    ]
    told = "; ".join(f"grade {grade}: {step:g} apart" for grade, step in zip(GRADES, steps, strict=True))
    drawn = chips(f"scale-{name}", f"Pairs of greys for the grades of {name}", f"{told}.", pairs)
    return [f'<figure class="cloth">{drawn}</figure>', "", "Drawn to show the idea; a screen is no grey scale.", ""]


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
    return f"Basis: {phrases.basis(book, links, [*known, 'common practice'])}"
