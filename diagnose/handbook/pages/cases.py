"""A worked case as something to think about: what was seen and answered, and, folded away, what it was."""

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import fold
from diagnose.handbook.links import Links
from diagnose.handbook.text import listed, plain, shown
from diagnose.knowledge.model import Rule, WorkedCase
from diagnose.speech.saying import say


def case_lines(book: Handbook, links: Links, case: WorkedCase) -> list[str]:
    """A case with its answer folded away."""
    return [f"**{plain(case.story)}.**", "", *told(book, links, case), *answer(book, links, case, say("what-it-was"))]


def told(book: Handbook, links: Links, case: WorkedCase) -> list[str]:
    """What was pressed, seen and answered, as a list."""
    known = book.knowledge
    lines = []
    if case.item in known.items:
        lines.append(say("pressed", entry=links.entry("items", case.item, known.items[case.item].title)))
    lines += [phrases.fact_words(book, fact, value) for fact, value in case.job.items()]
    if saw := _named(book, links, "defects", case.saw):
        lines.append(say("case-seen", sights=saw))
    if not_seen := _named(book, links, "defects", case.not_seen):
        lines.append(say("case-not-seen", sights=not_seen))
    for check_id, outcome in case.answers.items():
        if check := known.checks.get(check_id):
            lines.append(f"{phrases.named(links, check)}: {plain(check.outcome(outcome).looks)}")
    if tried := _named(book, links, "fixes", case.tried):
        lines.append(say("case-tried", tried=tried))
    return [*(f"- {line}" for line in lines), ""]


def answer(book: Handbook, links: Links, case: WorkedCase, summary: str) -> list[str]:
    """The causes that come first, with why, and what it was not."""
    lines = [
        f"**{links.entry('causes', cause, book.title('causes', cause))}.** {plain(_why(book, case, cause))}"
        for cause in case.first
        if cause in book.knowledge.causes
    ]
    body = [part for line in lines for part in (line, "")]
    if never := _named(book, links, "causes", case.never):
        body += [say("case-not-behind-it", causes=never), ""]
    body += [f"<code>{plain(phrases.source_line(case.place))}</code>", "{ .source }"]
    return fold(shown(summary), body)


def _why(book: Handbook, case: WorkedCase, cause: str) -> str:
    """Why the cause brings on what was seen; where no rule says so, what the cause is."""
    rules = book.rules_by_cause.get(cause, [])
    fitting: list[Rule] = [rule for defect, rule in rules if defect.id in case.saw]
    return fitting[0].why if fitting else book.knowledge.causes[cause].about


def _named(book: Handbook, links: Links, kind: str, ids: tuple[str, ...]) -> str:
    entries = getattr(book.knowledge, kind)
    return listed([links.entry(kind, one, entries[one].title) for one in ids if one in entries])
