"""The ways in: the front page, the wall of pictures, the path of lessons, the page that diagnoses, the wall chart."""

from collections.abc import Iterator

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf, item
from diagnose.handbook.links import Links, address
from diagnose.handbook.pages import casebook
from diagnose.handbook.pages.defects import promising_fixes, telling_checks
from diagnose.handbook.pages.lessons import LESSONS, titles
from diagnose.handbook.pictures_in import image
from diagnose.handbook.text import markup, plain, sentence_start, shown
from diagnose.speech.saying import say
from diagnose.speech.titles import titled

ABOUT = say("handbook-lead")
WAYS_IN = (
    '<p class="go"><a class="md-button md-button--primary" href="diagnose.html">Find the cause</a> '
    '<a class="md-button" href="pictures.html">Pick a picture</a></p>'
)
ON_CHART = 6
ON_FRONT = 6
CAUSES_ON_CHART = 3


def leaves(book: Handbook) -> Iterator[Leaf]:
    """One page of each kind."""
    yield _front(book)
    yield _pictures(book)
    yield _lessons(book)
    yield _wall(book)


def _front(book: Handbook) -> Leaf:
    links = Links("index.md")
    shop = f"The handbook of {plain(book.shop.name)}. " if book.shop.name else ""
    lines = [
        shop + ABOUT,
        "{ .lead }",
        "",
        WAYS_IN,
        "",
        "## Commonest defects { #common }",
        "",
        _cards(links, book, book.by_commonness[:ON_FRONT]),
        "",
        f"{links.to(address('defects'), f'All {len(book.knowledge.defects)} defects')}",
        "",
        "## At the press { #at-the-press }",
        "",
        *item(f"**{links.to('before.md', 'Before you press')}**: what to look at first, by the goods in hand"),
        *item(f"**{links.to('settings.md', 'Settings by item')}**: heat, dwell, pressure and peel"),
        *item(f"**{links.to('blends.md', 'Colour on blends')}**: how much paler a print is with cotton in the cloth"),
        *item(f"**{links.to('colour.md', 'Judging a colour difference')}**: what passes, and what a miss points to"),
        *item(f"**{links.to('dangers.md', say('if-somebody-is-hurt'))}**: what to do first, and whom to call"),
        *item(f"**{links.to('cautions.md', 'Cautions')}**: how a step can hurt somebody"),
        *item(f"**{links.to('wall.md', 'Wall chart')}**: the six commonest defects on one sheet"),
        *_casebook(links, book),
        "",
        "## New here? { #new }",
        "",
        *item(f"**{links.to(LESSONS + 'index.md', 'Lessons')}**: short ones, with questions from the bench"),
        *item(f"**{links.to('glossary.md', 'Glossary')}**: the words of the trade"),
        "",
        say("nothing-leaves-this-device"),
        "{ .source }",
    ]
    return Leaf(path=links.start, title=say("press-handbook"), lines=tuple(lines), hide=("toc",), boost=0)


def _casebook(links: Links, book: Handbook) -> list[str]:
    if not casebook.has_cases(book):
        return []
    return item(f"**{links.to(casebook.PATH, 'Casebook')}**: what our own cases add up to")


def _cards(links: Links, book: Handbook, defects: list[str]) -> str:
    """Defects as cards with pictures."""
    cards = []
    for defect in defects:
        href = markup(links.path(f"defects/{defect}.html"))
        title = shown(book.title("defects", defect))
        cards.append(f'<li><a href="{href}">{image(links, defect, decorative=True)}<span>{title}</span></a></li>')
    return f'<ul class="cards">{"".join(cards)}</ul>'


def _pictures(book: Handbook) -> Leaf:
    links = Links("pictures.md")
    defects = sorted(book.knowledge.defects, key=lambda d: book.title("defects", d).casefold())
    lines = [say("left-right-and-wrong"), "{ .lead }", ""]
    return Leaf(
        path=links.start,
        title=say("defects-by-picture"),
        lines=(*lines, _cards(links, book, defects)),
        hide=("toc",),
        boost=0,
    )


def _lessons(book: Handbook) -> Leaf:
    links = Links(f"{LESSONS}index.md")
    lines = [say("one-a-day-a-quarter"), "{ .lead }", ""]
    for number, (path, title) in enumerate(titles(book.docs), 1):
        lines.append(f"{number}. {links.to(path, title)}")
    return Leaf(path=links.start, title="Lessons", lines=tuple(lines), hide=("toc",))


def _wall(book: Handbook) -> Leaf:
    links = Links("wall.md")
    panels = "".join(_panel(book, links, defect) for defect in book.by_commonness[:ON_CHART])
    lines = [
        say("one-sheet-for-the-wall"),
        "{ .not-printed }",
        "",
        phrases.before_press(book, links),
        "{ .mind }",
        "",
        f'<div class="wall">{panels}</div>',
    ]
    return Leaf(path=links.start, title=say("the-six-commonest-defects"), lines=tuple(lines), hide=("toc",), boost=0)


def _panel(book: Handbook, links: Links, defect: str) -> str:
    known = book.knowledge.defects[defect]
    causes = [
        f"<li>{links.html(address('causes', cause), book.title('causes', cause))}</li>"
        for cause, _ in book.all_behind[defect][:CAUSES_ON_CHART]
    ]
    checks = [check for check, _ in telling_checks(book, defect)][:1]
    fixes = [fix for fix, _ in promising_fixes(book, defect)][:1]
    told = [
        *(f"<p><b>Look first:</b> {links.html(address('checks', c.id), titled(c))}</p>" for c in checks),
        *(f"<p><b>Try first:</b> {links.html(address('fixes', f.id), titled(f))}</p>" for f in fixes),
    ]
    return (
        f"<section><h2>{links.html(address('defects', defect), known.title)}</h2>{image(links, defect)}"
        f"<p>{shown(sentence_start(known.looks))}</p><ol>{''.join(causes)}</ol>{''.join(told)}</section>"
    )
