"""A page for each defect, and the list of them."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain, islice

from diagnose.handbook import phrases
from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf, fold, item, numbered, section
from diagnose.handbook.links import Links, address, pair_address
from diagnose.handbook.pages.care_links import care_section
from diagnose.handbook.pages.cases import case_lines
from diagnose.handbook.pictures_in import figure
from diagnose.handbook.slips import distinct, main_words, slips
from diagnose.handbook.text import markup, plain, sentence_start
from diagnose.knowledge.model import Check, Defect, Fix, Rule
from diagnose.knowledge.preparing import Way
from diagnose.knowledge.trial import on_trial
from diagnose.speech.saying import say

CHECKS_SHOWN = 6
FIXES_SHOWN = 6
NAMES_SHOWN = 6
CAUSES_TOLD = 8  # the rest are folded away, and left out on paper


def leaves(book: Handbook) -> Iterator[Leaf]:
    """The list of defects, then one page for each."""
    yield _index(book)
    for defect in book.knowledge.defects.values():
        yield _page(book, defect)


def _index(book: Handbook) -> Leaf:
    links = Links(address("defects"))
    lines = [f"{links.to('pictures.md', 'By their pictures')} · {links.to('apart/index.md', 'Told apart')}", ""]
    for defect in sorted(book.knowledge.defects.values(), key=lambda d: d.title.casefold()):
        lines += item(f"**{links.entry('defects', defect.id, defect.title)}.** {plain(sentence_start(defect.looks))}")
    return Leaf(path=links.start, title="Defects", lines=tuple(lines), boost=0)


def _page(book: Handbook, defect: Defect) -> Leaf:
    links = Links(address("defects", defect.id))
    lines = [
        *phrases.crumb(links, "defects", "Defects"),
        *phrases.own(defect),
        f"{plain(defect.looks)}",
        "{ .lead }",
        "",
        *figure(links, defect.id),
        f'<p class="go">{_dialogue(links, defect)}</p>',
        "",
        *_names(book, defect),
        *section(say("mistaken-for"), _alike(book, links, defect), "mistaken-for", found=False),
        *section(say("causes-the-likeliest-first"), _causes(book, links, defect), "causes", found=False),
        *section(say("checks-that-tell"), _checks(book, links, defect), "checks", found=False),
        *section(say("what-puts-it-right"), _fixes(book, links, defect), "fixes", found=False),
        *section(say("the-spoiled-piece"), _salvage(book, links, defect), "piece", found=False),
        *section(say("worked-cases"), _cases(book, links, defect), "cases", found=False),
        *care_section(book, links, defect),
        *phrases.foot(book, links, defect),
    ]
    return Leaf(
        path=links.start,
        title=defect.title,
        lines=tuple(lines),
        boost=_boost(book, defect),
        tags=main_words(defect, book),
    )


def _dialogue(links: Links, defect: Defect) -> str:
    """The way to the page that diagnoses, with this defect already said."""
    way = markup(f"{links.path('diagnose.html')}#saw={defect.id}")
    return f'<a class="md-button md-button--primary" href="{way}">Find the cause</a>'


def _boost(book: Handbook, defect: Defect) -> float:
    """What is common is what is mostly meant."""
    return round(5.0 + 15.0 * book.commonness[defect.id], 1)


def _alike(book: Handbook, links: Links, defect: Defect) -> Iterator[str]:
    own = {alike.defect: alike.tell for alike in defect.look_alikes}
    for other, tell in book.pairs_by_defect.get(defect.id, []):
        name = links.entry("defects", other, book.title("defects", other))
        apart = links.to(pair_address(defect.id, other), say("side-by-side"))
        yield from item(f"**{name}.** {plain(own.get(other, tell))} {apart}")


def _causes(book: Handbook, links: Links, defect: Defect) -> Iterator[str]:
    ranked = book.all_behind[defect.id]
    rules: dict[str, list[Rule]] = {}
    for rule in defect.rules:
        rules.setdefault(rule.cause, []).append(rule)
    yield from [say("defect-chances-are"), ""]
    told = list(enumerate(ranked, 1))
    for number, (cause, behind) in told[:CAUSES_TOLD]:
        yield from _cause(book, links, number, cause, behind, rules[cause])
    rest = [
        line
        for n, (cause, behind) in told[CAUSES_TOLD:]
        for line in _cause(book, links, n, cause, behind, rules[cause])
    ]
    if rest:
        yield from fold(f"{len(told) - CAUSES_TOLD} causes that are less likely", rest, name="fold rest")


def _cause(book: Handbook, links: Links, number: int, cause: str, behind: float, rules: list[Rule]) -> list[str]:
    title = links.entry("causes", cause, book.title("causes", cause))
    lines = [f'**{title}** <span class="chance">{phrases.chance(book, behind)}</span>']
    for rule in rules:
        brings = say("it-brings-this-on", chance=phrases.chance(book, rule.brings.value))
        trial = f" {phrases.ON_TRIAL}" if on_trial(rule) else ""
        lines.append(f"{plain(rule.why)}")
        lines.append(
            f'<span class="source">{_joined(brings, phrases.only_where(book, rule.condition))}{trial} '
            f"Basis: {phrases.basis(book, links, rule.basis)} · {phrases.from_where(rule.origin, rule.place)}</span>"
        )
    return numbered(number, *lines)


def _joined(*sentences: str) -> str:
    return " ".join(filter(None, sentences))


def _checks(book: Handbook, links: Links, defect: Defect) -> Iterator[str]:
    ranked = telling_checks(book, defect.id)
    yield from _first([_check(book, links, check, causes) for check, causes in ranked], CHECKS_SHOWN, "checks")


def _first(entries: Sequence[list[str]], shown: int, what: str) -> Iterator[str]:
    """The first entries as they are, the others folded away."""
    yield from chain.from_iterable(entries[:shown])
    if rest := list(chain.from_iterable(entries[shown:])):
        yield from fold(f"{len(entries) - shown} more {what}", rest, name="fold rest")


def _check(book: Handbook, links: Links, check: Check, causes: list[str]) -> list[str]:
    mind = phrases.short_cautions(book, links, check.cautions)
    tells = ", ".join(links.entry("causes", cause, book.title("causes", cause)) for cause in causes)
    return item(
        f"**{phrases.named(links, check)}** ({phrases.price(book, check)})",
        mind and f'<span class="mind">{mind}</span>',
        say("it-tells-about", asks=plain(check.asks), tells=tells),
    )


def telling_checks(book: Handbook, defect: str) -> list[tuple[Check, list[str]]]:
    """The checks that speak of a defect's causes, each with those causes, the most telling for its time first, those on
    trial last."""
    behind = dict(book.all_behind[defect])
    worth: dict[str, float] = {}
    about: dict[str, list[str]] = {}
    for cause, likely in behind.items():
        for check, outcome, shows in book.checks_by_cause.get(cause, []):
            worth[check.id] = worth.get(check.id, 0.0) + likely * max(0.0, shows.value - outcome.otherwise.value)
            if cause not in about.setdefault(check.id, []):
                about[check.id].append(cause)
    known, rates = book.knowledge.checks, book.shop.rates
    ranked = sorted(worth, key=lambda one: (-round(worth[one] / (rates.worth(known[one]) + 1.0), 9), one))
    ranked.sort(key=lambda one: on_trial(known[one]))
    return [(known[one], about[one][:4]) for one in ranked]


def _fixes(book: Handbook, links: Links, defect: Defect) -> Iterator[str]:
    ranked = promising_fixes(book, defect.id)
    yield from _first([_fix(book, links, fix, causes) for fix, causes in ranked], FIXES_SHOWN, "fixes")


def _fix(book: Handbook, links: Links, fix: Fix, causes: list[str]) -> list[str]:
    mind = phrases.short_cautions(book, links, fix.cautions)
    cures = "; ".join(
        f"{links.entry('causes', cause, book.title('causes', cause))} ({phrases.chance(book, fix.cures[cause].value)})"
        for cause in causes
    )
    return item(
        f"**{phrases.named(links, fix)}** ({phrases.price(book, fix)})",
        mind and f'<span class="mind">{mind}</span>',
        say("puts-right", causes=cures),
        phrases.only_where(book, fix.condition),
    )


def promising_fixes(book: Handbook, defect: str) -> list[tuple[Fix, list[str]]]:
    """The fixes for a defect's causes, each with those causes, the most promising for its time first, those on
    trial last."""
    behind = dict(book.all_behind[defect])
    gain: dict[str, float] = {}
    about: dict[str, list[str]] = {}
    for cause, likely in behind.items():
        for fix, cures in book.fixes_by_cause.get(cause, []):
            gain[fix.id] = gain.get(fix.id, 0.0) + likely * cures.value
            about.setdefault(fix.id, []).append(cause)
    known, rates = book.knowledge.fixes, book.shop.rates
    ranked = sorted(gain, key=lambda one: (-round(gain[one] / (rates.worth(known[one]) + 5.0), 9), one))
    ranked.sort(key=lambda one: on_trial(known[one]))
    return [(known[one], about[one][:3]) for one in ranked]


def _salvage(book: Handbook, links: Links, defect: Defect) -> Iterator[str]:
    """What becomes of a piece that shows it: by goods, each way with how often it comes out well."""
    for each in book.knowledge.salvage.values():
        if defect.id in each.defects:
            mind = phrases.short_cautions(book, links, each.cautions)
            yield from item(
                f"**{plain(each.title)}.** {_joined(plain(each.why), phrases.only_where(book, each.condition))}",
                mind and f'<span class="mind">{mind}</span>',
                *(_way(book, name, way) for name, way in each.ways.items()),
                f'<span class="source">Basis: {phrases.basis(book, links, each.basis)}</span>',
            )


def _way(book: Handbook, name: str, way: Way) -> str:
    how = phrases.chance(book, way.comes_out.value) if way.comes_out.value else say("never-comes-out")
    return f'**{say("way-with-a-piece", way=name)}** <span class="chance">{how}</span> {plain(way.says)}'


def _cases(book: Handbook, links: Links, defect: Defect) -> Iterable[str]:
    return [line for case in defect.cases for line in case_lines(book, links, case)]


def _names(book: Handbook, defect: Defect) -> list[str]:
    """What people call it, for them to know it by and for the search, which weighs the head of a page most."""
    first = [*islice(distinct((defect.title, *defect.said)), 1, NAMES_SHOWN + 1)]
    more = [name for name in book.names(defect) if name not in first]
    lines = [say("also-called-first", names=plain(", ".join(first))), ""] if first else []
    rest = [f"{plain('; '.join(more))}.", "{ .names }", ""] if more else []
    if wrong := slips(defect, book):
        rest += [say("mistyped", wrong=plain(" ".join(wrong))), "{ .names }"]
    return [*lines, *(fold(say("more-that-people-say-or-type"), rest, name="fold rest") if rest else [])]
