"""Heat and dye: what happens between closing and opening, with charts and tables reckoned from the knowledge."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from diagnose.casebook.report.charts import Words
from diagnose.foresight.pressing import NoBody, body_of
from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf, fold, section
from diagnose.handbook.line_chart import Axis, ChartLine, line_chart
from diagnose.handbook.links import Links, address
from diagnose.handbook.pages.items import families
from diagnose.handbook.text import listed, markup, plain, shown
from diagnose.knowledge.materials import Material
from diagnose.press.dye.dose import share
from diagnose.press.pressing import Body, Unreachable, dose_of, dwell_for, press, track, wanted
from diagnose.speech.amounts import degrees, shown_in
from diagnose.speech.saying import say

CLOSED = (
    "The platen touches the cover sheet, and heat soaks down through sheet and transfer. Near 100 °C (212 °F) it "
    "waits: water must turn to steam first. The water that cotton holds takes nearly as much heat as bringing the "
    "dry cotton all the way to press heat; polyester holds next to none. Then the print comes to its heat. The "
    "dye turns to gas, crosses the hair's breadth to the item, and goes into polyester that the heat has opened. "
    "Cotton stays shut to it, and so does a bare glaze.\n\n"
    "Thin cloth is hot within half a minute. A tile drinks heat for minutes, and where it lies face down all of "
    "it has to pass through the clay before the dye feels any. That is why one wants seconds and the other "
    "minutes, at the same heat."
)
PRESSURE = say("heat-pressure")
TOO_MUCH = say("heat-too-much")
PARTS = (
    (say("what-happens-while-it-is-closed"), CLOSED),
    (say("why-ten-degrees-matter"), say("heat-why-ten-degrees")),
    (say("what-pressure-does-and-what"), PRESSURE),
    (say("too-much-of-it"), TOO_MUCH),
)


PATH = "heat.md"
SHOWN = ("tea-towel-polyester", "hardboard-coaster", "mug", "ceramic-tile")  # on the chart
NAMES = {
    "tea-towel-polyester": say("tea-towel"),
    "hardboard-coaster": say("hardboard-coaster"),
    "mug": "Mug",
    "ceramic-tile": say("tile-by-its-back"),
}
TABLED = ("mug",)  # beside the first item of each family
HEATS = (180.0, 190.0, 200.0, 210.0)  # °C
LONGEST = 900.0  # s: what takes longer is not pressed so
SHORT = (0.0, -5.0, -10.0, -15.0)  # K by which a platen stands under its display
PROPERTIES = {
    "conductivity": ("Conductivity", "W/(m K)"),
    "density": ("Density", "kg/m³"),
    "heat-capacity": (say("heat-capacity"), "J/(kg K)"),
    "regain": ("Water", "kg/kg"),
}


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The one page."""
    links = Links(PATH)
    bodies = _bodies(book)
    lines = [
        say("heat-lead"),
        "{ .lead }",
        "",
        phrases.before_press(book, links),
        "{ .mind }",
        "",
    ]
    for title, text in PARTS:
        lines += section(title, [*_paragraphs(text)])
    if shown := [name for name in SHOWN if name in bodies]:
        lines += section(
            say("what-the-dye-feels"),
            [plain(say("heat-curves")), "", _warming(book, bodies, shown)],
            "at-the-dye",
        )
        lines += section(
            say("time-heat-and-colour"),
            [plain(say("heat-dwell-curves")), "", _colouring(book, bodies[shown[0]])],
        )
        lines += section(say("a-platen-that-stands-low"), _low(book, links, shown[0], bodies[shown[0]]), "low-platen")
    lines += section(say("the-same-dose-at-another-heat"), _dwells(book, links, bodies), "other-heats")
    lines += section(
        say("how-it-is-reckoned"),
        [*_paragraphs(say("heat-reckoned")), *_paragraphs(say("heat-not-known"))],
        "reckoned",
    )
    lines += section(say("what-things-are-made-of"), _properties(book, links), "materials", found=False)
    yield Leaf(path=PATH, title=say("heat-and-dye"), lines=tuple(lines))


def _bodies(book: Handbook) -> dict[str, Body]:
    """The items of the page that can be reckoned."""
    firsts = [next(iter(book.items_of(family)), None) for family in families(book)]
    named = [book.knowledge.items.get(name) for name in (*SHOWN, *TABLED)]
    found: dict[str, Body] = {}
    for item in filter(None, (*firsts, *named)):
        if item.settings is None:
            continue
        try:
            found.setdefault(item.id, body_of(item, book.knowledge))
        except NoBody:
            continue
    return found


def _paragraphs(text: str) -> Iterator[str]:
    for paragraph in text.split("\n\n"):
        yield from (plain(paragraph), "")


def _warming(book: Handbook, bodies: dict[str, Body], shown: list[str]) -> str:
    unit = book.shop.temperature
    lines, told = [], []
    for name in shown:
        body = bodies[name]
        moments, stack = track(body, body.reference)
        points = [(moment.time, shown_in(unit, moment.at_dye(stack))) for moment in moments]
        lines.append(ChartLine(NAMES[name], points))
        told.append(say("curve-at", names=NAMES[name], degrees=points[-1][1], unit=unit, seconds=points[-1][0]))
    marks = [0, 100, 200, 300, 400] if unit == "F" else [0, 50, 100, 150, 200]
    across = Axis("seconds under the press", [0, 60, 120, 180, 240, 300, 360])
    words = Words("warming", say("temperature-at-the-dye"), " ".join(told))
    return f'<div class="chart">{line_chart(lines, across, Axis(f"°{unit} at the dye", marks), words)}</div>'


def _colouring(book: Handbook, body: Body) -> str:
    unit = book.shop.temperature
    lines, told, full = [], [], wanted(body)
    for heat in (185.0, 195.0, 205.0):
        points = [(0.0, 0.0)]
        for dwell in range(5, 121, 5):
            got = dose_of(body, replace(body.reference, temperature=heat, dwell=float(dwell)))
            points.append((float(dwell), 100 * share(got / full)))
        name = f"{shown_in(unit, heat):.0f} °{unit}"
        lines.append(ChartLine(name, points))
        told.append(f"{name}: {points[12][1]:.0f} % after 60 s.")
    words = Words("colouring", say("share-of-full-colour-by-dwell"), " ".join(told))
    up, across = Axis("% of full colour", [0, 25, 50, 75, 100]), Axis("seconds under the press", [0, 30, 60, 90, 120])
    return f'<div class="chart">{line_chart(lines, across, up, words)}</div>'


def _low(book: Handbook, links: Links, name: str, body: Body) -> list[str]:
    unit, item = book.shop.temperature, book.knowledge.items[name]
    rows = []
    for offset in SHORT:
        settings = replace(body.reference, offset=offset, offset_spread=1.0)
        got = press(body, settings)
        low, high = (min(99, round(100 * each)) for each in got.share_band)
        cells = (
            f"{abs(offset) * (1.8 if unit == 'F' else 1):.0f} °{unit}",
            f"about {min(99, round(100 * got.share))} % ({low}–{high} %)",
            _told(dwell_for(body, settings)) if offset else "as set",
        )
        rows.append(_row(cells[0], zip(("Colour", say("dwell-instead")), cells[1:], strict=True)))
    lead = (
        f"{links.entry('items', name, item.title)} at its usual settings, {degrees(body.reference.temperature, unit)} "
        f"for {body.reference.dwell:g} s on the display, by a platen that truly stands lower:"
    )
    return [lead, "", _table((say("low-by"), "Colour", say("dwell-instead")), rows), ""]


def _dwells(book: Handbook, links: Links, bodies: dict[str, Body]) -> list[str]:
    unit = book.shop.temperature
    rows = []
    for name, body in bodies.items():
        item = book.knowledge.items[name]
        cells = [(degrees(heat, unit), _dwell(body, heat)) for heat in HEATS]
        rows.append(_row(links.html(address("items", name), item.title), cells))
    if not rows:
        return []
    lead = say("heat-same-dose")
    return [plain(lead), "", _table(("Item", *(degrees(heat, unit) for heat in HEATS)), rows), ""]


def _properties(book: Handbook, links: Links) -> list[str]:
    rows = [_material(book, links, one) for one in book.knowledge.materials.values()]
    head = ("Material", *(name for name, _ in PROPERTIES.values()), "Basis")
    return fold(say("properties-of-materials-each"), [_table(head, rows)]) if rows else []


def _material(book: Handbook, links: Links, one: Material) -> str:
    told = one.properties
    cells = [
        (name, markup(f"{told[key].value:g} {unit}") if key in told else "none")
        for key, (name, unit) in PROPERTIES.items()
    ]
    by_basis: dict[str, list[str]] = {}
    for key, value in told.items():
        basis = "; ".join(_source(book, links, each) for each in value.basis)
        by_basis.setdefault(basis, []).append(PROPERTIES[key][0].lower())
    said = "; ".join(basis if len(by_basis) == 1 else f"{listed(names)}: {basis}" for basis, names in by_basis.items())
    return _row(shown(one.title), [*cells, ("Basis", said)])


def _source(book: Handbook, links: Links, name: str) -> str:
    """A source by its id, which is short and tells enough beside its page."""
    return links.html(address("sources", name), name) if name in book.knowledge.sources else shown(name)


def _dwell(body: Body, heat: float) -> str:
    try:
        seconds = dwell_for(body, replace(body.reference, temperature=heat))
    except Unreachable:
        return "too long"
    return _told(seconds) if seconds <= LONGEST else "too long"


def _told(seconds: float) -> str:
    """To the nearest second that means anything: 5 s from a minute and a half on."""
    return f"{seconds:.0f} s" if seconds < 90 else f"{5 * round(seconds / 5)} s"


def _row(head: str, cells: Iterable[tuple[str, str]]) -> str:
    rest = "".join(f'<td data-name="{markup(name)}"{_wide(name)}><span>{value}</span></td>' for name, value in cells)
    return f'<tr><th scope="row">{head}</th>{rest}</tr>'


def _wide(name: str) -> str:
    """Sentences may break; figures may not."""
    return ' class="long"' if name == "Basis" else ""


def _table(head: tuple[str, ...], rows: list[str]) -> str:
    cells = "".join(f'<th scope="col">{markup(name)}</th>' for name in head)
    return f'<table class="settings flat"><thead><tr>{cells}</tr></thead><tbody>{"".join(rows)}</tbody></table>'
