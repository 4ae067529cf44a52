"""Turns of phrase that many pages share: chances, conditions, prices, cautions, and where a thing was said."""

import re
from collections.abc import Collection, Iterable

from diagnose.handbook.book import Handbook
from diagnose.handbook.links import Links, address
from diagnose.handbook.text import plain
from diagnose.knowledge.cautions import at_a_press, before, hottest_first, in_brief
from diagnose.knowledge.conditions import Condition, FactValue, Usual
from diagnose.knowledge.model import SHIPPED, Check, Entry, Fix, Spends
from diagnose.knowledge.trial import on_trial
from diagnose.problems import Place
from diagnose.speech import conditions
from diagnose.speech.amounts import in_words, taking, used_up
from diagnose.speech.conditions import condition_words
from diagnose.speech.saying import say
from diagnose.speech.titles import titled

ON_TRIAL = "**On trial.**"
_IN_A_FOLDER = re.compile(r"(?:.*[/\\])?((?:rules|kb)[/\\].*)")


def chance(book: Handbook, value: float) -> str:
    """A chance in words with its number: ``likely, 71 %``."""
    return plain(in_words(value, book.knowledge.scale))


def fact_words(book: Handbook, fact_id: str, value: FactValue | Usual) -> str:
    """A fact with its value, and with what it may be instead: ``Polyester share: 65 %``."""
    return plain(conditions.fact_words(fact_id, value, book.knowledge.facts))


def condition(book: Handbook, where: Condition) -> str:
    """A condition as words: ``kind of item: cloth or blend``; "" where there is none."""
    return plain(condition_words(where, book.knowledge.facts))


def only_where(book: Handbook, where: Condition) -> str:
    """The same as a line of its own."""
    said = condition(book, where)
    return say("only-where", condition=said) if said else ""


def spent(book: Handbook, spends: Spends) -> list[str]:
    """What a step uses up."""
    return [plain(part) for part in used_up(spends, book.shop.currency)]


def price(book: Handbook, step: Check | Fix) -> str:
    """The time a step takes, what it waits for, and what it uses up."""
    return " · ".join([plain(taking(step)), *spent(book, step.spends)])


def basis(book: Handbook, links: Links, names: Iterable[str]) -> str:
    """On whose word something stands; published sources as links."""
    known = book.knowledge.sources
    said = [
        links.entry("sources", name, f"{known[name].authors}, {known[name].year}") if name in known else plain(name)
        for name in names
    ]
    return "; ".join(said)


def source_line(place: Place) -> str:
    """The file and line something was read from, within its folder: ``rules/ghosting.yaml:12``."""
    file = _IN_A_FOLDER.sub(r"\1", place.file).replace("\\", "/")
    return f"{file}:{place.line}" if place.line else file


def from_where(entry_origin: str, place: Place) -> str:
    """Where something stands in the files, and whose it is where it did not ship."""
    own = "" if entry_origin == SHIPPED else f" ({plain(entry_origin)})"
    return f"<code>{plain(source_line(place))}</code>{own}"


def foot(book: Handbook, links: Links, entry: Entry) -> list[str]:
    """The last line of an entry's page: its basis and where it stands."""
    said = basis(book, links, entry.basis)
    lead = f"Basis: {said} · " if said else ""
    return [f"{lead}Stands in {from_where(entry.origin, entry.place)}", "{ .source }", ""]


def own(entry: Entry) -> list[str]:
    """A line that says whose something is where it did not ship, and that it is on trial."""
    trial = [ON_TRIAL, ""] if isinstance(entry, Check | Fix) and on_trial(entry) else []
    return [] if entry.origin == SHIPPED else [f"*From {plain(entry.origin)}.*", "", *trial]


def before_step(book: Handbook, links: Links, step: Check | Fix) -> list[str]:
    """The cautions to read before a step, of goods that nobody has named."""
    known = book.knowledge.cautions
    ids = before(known, step)
    return cautions(book, links, ids, in_brief(known, step, ids))


def before_press(book: Handbook, links: Links) -> str:
    """The cautions of any press by their titles, on one line."""
    return short_cautions(book, links, at_a_press(book.knowledge.cautions))


def cautions(book: Handbook, links: Links, ids: Iterable[str], brief: Collection[str] = ()) -> list[str]:
    """Some cautions, whole or told in ``brief``, each linked to the page of cautions."""
    known = [book.knowledge.cautions[one] for one in hottest_first(book.knowledge.cautions, ids)]
    if not known:
        return []
    texts = {one.id: "" if one.id in brief else f" {plain(one.text)}" for one in known}
    lines = [f"- **{links.entry('cautions', one.id, one.title)}.**{texts[one.id]}" for one in known]
    return ['<div class="caution" role="note" aria-label="Cautions" markdown="1">', "", *lines, "", "</div>", ""]


def short_cautions(book: Handbook, links: Links, ids: Iterable[str]) -> str:
    """The same by their titles, on one line; "" where there is none."""
    known = [book.knowledge.cautions[one] for one in hottest_first(book.knowledge.cautions, ids)]
    said = " · ".join(links.entry("cautions", one.id, one.title) for one in known)
    return say("mind", cautions=said) if said else ""


def named(links: Links, step: Check | Fix) -> str:
    """A link to a check or fix by its title, marked where it is on trial."""
    return links.entry("checks" if isinstance(step, Check) else "fixes", step.id, titled(step))


def crumb(links: Links, kind: str, name: str) -> list[str]:
    """The way up, at the head of an entry's page."""
    return [f"{links.to(address(kind), name)}", "{ .crumb }", ""]
