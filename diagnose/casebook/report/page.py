"""The report as one page of HTML that needs nothing else: charts, the tables beside them, light and dark."""

from html import escape

from diagnose.casebook.report import words
from diagnose.casebook.report.charts import pareto, weeks
from diagnose.casebook.report.report import Report
from diagnose.casebook.report.tables import Table, tables
from diagnose.characters import stripped
from diagnose.files.kinds import FileKind
from diagnose.speech.saying import say

BOOK = "The casebook"  # what such a file is known by begins with it
BEGINS = (
    '<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
    f"<title>{BOOK}"
)
PAGE = FileKind(name="a page with a report", begins=(BEGINS.encode(),))
STYLE = """
:root { color-scheme: light dark; }
body { max-width: 44rem; margin: 0 auto; padding: 1.5rem 1rem 4rem; font: 1rem/1.5 system-ui, sans-serif; }
h1, h2 { line-height: 1.2; font-weight: 600; }
h2 { margin: 2.5rem 0 0.5rem; }
figure { margin: 1rem 0; }
.about { opacity: 0.8; }
.table { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; }
th, td { padding: 0.3rem 0.7rem 0.3rem 0; border-bottom: 1px solid color-mix(in srgb, currentColor 25%, transparent); }
th { font-weight: 600; vertical-align: bottom; }
th, td { text-align: right; }
th:last-child, td:last-child { text-align: left; padding-right: 0; }
.weeks table { width: auto; }
.weeks th, .weeks td { text-align: left; }
"""


def page(report: Report, shop: str, currency: str) -> str:
    """The page. ``shop``: the shop's name, "" where it has none."""
    title = say("the-casebook-of", shop=shop) if shop else BOOK
    body = [f"<h1>{escape(title)}</h1>", f"<p>{escape(words.sums(report, currency))}</p>"]
    if note := words.left_out(report):
        body.append(f"<p>{escape(note)}</p>")
    drawn = charts(report, currency)
    for table in tables(report, currency):
        body += [f"<h2>{escape(table.title)}</h2>", f'<p class="about">{escape(table.about)}</p>']
        body += [f"<figure>{drawn[table.name]}</figure>"] if table.name in drawn and table.rows else []
        body.append(html_table(table))
    head = f"{BEGINS}{escape(title.removeprefix(BOOK))}</title><style>{STYLE}</style></head><body>"
    return "\n".join([head, *body, "</body></html>", ""])


def charts(report: Report, currency: str) -> dict[str, str]:
    """The charts as SVG, by the names of their tables."""
    told = words.chart_words(report)
    return {
        "causes": pareto(report.causes, "{:.1f}".format, told["causes"]),
        "losses": pareto(report.losses, lambda amount: f"{currency} {amount:.0f}".strip(), told["losses"]),
        "weeks": weeks(report.run, told["weeks"]),
    }


def html_table(table: Table) -> str:
    """A table; a line of words where it has no rows."""
    if not table.rows:
        return f"<p>{escape(say('nothing-to-show-yet'))}</p>"
    head = "".join(f'<th scope="col">{escape(stripped(cell))}</th>' for cell in table.head)
    rows = ["".join(f"<td>{escape(stripped(cell))}</td>" for cell in row) for row in table.rows]
    body = "".join(f"<tr>{row}</tr>" for row in rows)
    return f'<div class="table {table.name}"><table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table></div>'
