"""The handbook: how long it takes to build, today and with ten times the knowledge, against mkdocs alone on the same
pages; and what a first visit has to load."""

import gzip
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import Any

from diagnose.handbook import building
from diagnose.handbook.book import Handbook
from diagnose.handbook.site import site
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Chance, Knowledge
from diagnose.knowledge.shop import Shop
from tests.bench.rows import Row
from tests.handbook.reading import read
from tests.handbook.weights import FIRST_LOAD, STEPS, VOCABULARY, weights

TIMES = 10
SHARE = 0.25  # what drawing the pages may take of the time mkdocs takes with them
PAGE = 300_000  # bytes of a page's first load as a server sends them, pictures left out
PAGES = ("index.html", "defects/ghosting.html", "diagnose.html")
LOADED = {"script", "link"}


def run() -> Iterator[Row]:
    """The rows of this measurement."""
    knowledge = load()
    with TemporaryDirectory() as folder:
        built = Path(folder) / "now"
        yield from _build("handbook", knowledge, built)
        yield from (_weight(built / "site", page) for page in PAGES)
        yield from _of_the_dialogue(Handbook(knowledge))
        index = (built / "site" / "search" / "search_index.json").read_bytes()
        yield Row("handbook: search index, on the first search", f"{len(gzip.compress(index)) / 1000:.0f} kB gzipped")
        yield from _build(f"handbook, {TIMES} × the knowledge", many(knowledge, TIMES), Path(folder) / "many")


def _build(name: str, knowledge: Knowledge, folder: Path) -> Iterator[Row]:
    root = shipped_folder()
    start = perf_counter()
    files = site(knowledge, Shop(), building.read_changes(root), building.read_docs(root))
    building.write(folder / "pages", files)
    drawn = perf_counter() - start
    building.build(root, folder / "site", folder / "pages")
    mkdocs = perf_counter() - start - drawn
    pages = sum(path.endswith(".md") for path in files)
    yield Row(f"{name}: {pages} pages drawn", f"{drawn:.1f} s", f"≤ {SHARE:.0%} of mkdocs", drawn <= SHARE * mkdocs)
    yield Row(f"{name}: mkdocs alone on them", f"{mkdocs:.1f} s")


def _weight(built: Path, page: str) -> Row:
    """What a page loads before it can be used: itself, scripts and style sheets."""
    named = [link for tag, _, link in read((built / page).read_text(encoding="utf-8")).links if tag in LOADED]
    paths = {(built / page).parent / link.split("?")[0] for link in named} | {built / page}
    sent = sum(len(gzip.compress(path.read_bytes())) for path in paths if path.is_file())
    name = f"handbook: first load of {page}"
    return Row(name, f"{sent / 1000:.0f} kB gzipped") if page == "diagnose.html" else _kept(name, sent, PAGE)


def _of_the_dialogue(book: Handbook) -> Iterator[Row]:
    """What the page that diagnoses loads to ask its first question, and what it loads once that is painted."""
    at_first, words, steps = weights(book)
    yield _kept("handbook: first-load weight (engine and knowledge)", at_first, FIRST_LOAD)
    yield _kept("handbook: vocabulary, loaded after the first paint", words, VOCABULARY)
    yield _kept("handbook: steps of checks and fixes, loaded after the first paint", steps, STEPS)


def _kept(name: str, sent: int, limit: int) -> Row:
    return Row(name, f"{sent / 1000:.0f} kB gzipped", f"≤ {limit / 1000:.0f} kB", sent <= limit)


def many(knowledge: Knowledge, times: int) -> Knowledge:
    """The knowledge several times over, each copy of a defect with its own causes, checks, fixes and items."""
    return replace(
        knowledge,
        causes=_copied(knowledge.causes, times),
        items=_copied(knowledge.items, times),
        checks=_copied(knowledge.checks, times, outcomes=_outcomes),
        fixes=_copied(knowledge.fixes, times, cures=_chances),
        defects=_copied(knowledge.defects, times, rules=_rules, look_alikes=_alike, cases=_cases),
        care=_copied(knowledge.care, times, items=_names, defects=_names),
    )


def _copied(entries: Mapping[str, Any], times: int, **parts: Any) -> dict[str, Any]:
    copies = {}
    for copy in range(times):
        for entry in entries.values():
            changed = {name: change(getattr(entry, name), copy) for name, change in parts.items()}
            named = _name(entry.id, copy)
            copies[named] = replace(entry, id=named, **changed)
    return copies


def _name(entry: str, copy: int) -> str:
    return f"{entry}-{copy}" if copy else entry


def _names(entries: tuple[str, ...], copy: int) -> tuple[str, ...]:
    return tuple(_name(entry, copy) for entry in entries)


def _chances(chances: Mapping[str, Chance], copy: int) -> dict[str, Chance]:
    return {_name(cause, copy): chance for cause, chance in chances.items()}


def _outcomes(outcomes: tuple[Any, ...], copy: int) -> tuple[Any, ...]:
    return tuple(replace(outcome, shows=_chances(outcome.shows, copy)) for outcome in outcomes)


def _rules(rules: tuple[Any, ...], copy: int) -> tuple[Any, ...]:
    return tuple(replace(rule, cause=_name(rule.cause, copy), defect=_name(rule.defect, copy)) for rule in rules)


def _alike(alike: tuple[Any, ...], copy: int) -> tuple[Any, ...]:
    return tuple(replace(one, defect=_name(one.defect, copy)) for one in alike)


def _cases(cases: tuple[Any, ...], copy: int) -> tuple[Any, ...]:
    return tuple(
        replace(
            case,
            item=case.item and _name(case.item, copy),
            **{name: _names(getattr(case, name), copy) for name in ("saw", "not_seen", "tried", "first", "never")},
            answers={_name(check, copy): outcome for check, outcome in case.answers.items()},
        )
        for case in cases
    )
