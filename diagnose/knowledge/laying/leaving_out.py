"""Lays a shop over what ships and leaves out those of its files that do not serve, so that the rest always does."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import count

from diagnose.knowledge.folders import Folder, SourceFile
from diagnose.knowledge.laying.compiling import Parsed, compile_stock
from diagnose.knowledge.shop import Stock
from diagnose.problems import MOST_SHOWN, Collector, Place, Problem

MOST_TRIED = 24  # of more files it is not tried which single one spoils the rest
MOST_ROUNDS = 12  # of leaving files out because others were; then the whole shop goes


def stock_without_broken(shipped: Folder, shop: Folder, unread: Sequence[Problem] = ()) -> Stock:
    """What ships with all of the shop's files laid over it that load and cross-check clean.

    A file in which a problem stands is left out, then what no longer fits without it, and so on. Where the problems
    stand in what ships, it is the one file without which there are none, else the whole shop. ``unread``: problems
    of files that could not even be read. Raises PressloreError where what ships is itself at fault.
    """
    parsed: Parsed = {}
    files, problems = list(shop.files), Collector(most=MOST_SHOWN)  # in the order in which one came of another
    problems.take(unread)
    for number in count():
        stock, found = _compiled(shipped, shop, files, parsed)
        if stock and not found:
            left = {file.name for file in files}
            gone = [file.shown for file in shop.files if file.name not in left]
            places = dict.fromkeys(Place(name) for name in (*(p.place.file for p in unread), *gone))
            return replace(stock, left_out=tuple(places), problems=tuple(problems.problems), more=problems.more)
        if not files:
            found.raise_if_any()
        spoilt = _standing_in(files, found) or _spoiling(shipped, shop, files, parsed)
        known = set(problems.problems)
        problems.take([problem for problem in found if problem not in known], found.more)
        files = [file for file in files if file.name not in spoilt] if number < MOST_ROUNDS else []
    raise AssertionError("without files nothing is left to go round for")


def _compiled(
    shipped: Folder, shop: Folder, files: Sequence[SourceFile], parsed: Parsed
) -> tuple[Stock | None, Collector]:
    found = Collector()
    return compile_stock((shipped, replace(shop, files=tuple(files))), found, parsed), found


def _standing_in(files: Sequence[SourceFile], found: Collector) -> set[str]:
    """The names of the files in which a problem stands."""
    return {file.name for file in files if file.shown in found.files}


def _spoiling(shipped: Folder, shop: Folder, files: Sequence[SourceFile], parsed: Parsed) -> set[str]:
    """The name of the first file without which nothing is wrong; of all of them where there is none such."""
    for file in files if len(files) <= MOST_TRIED else ():
        stock, found = _compiled(shipped, shop, [other for other in files if other != file], parsed)
        if stock and not found:
            return {file.name}
    return {file.name for file in files}
