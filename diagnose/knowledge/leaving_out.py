"""Lays a shop over what ships and leaves out those of its files that do not serve, so that the rest always does."""

from collections.abc import Sequence
from dataclasses import replace

from diagnose.knowledge.compiling import Parsed, compile_stock
from diagnose.knowledge.folders import Folder, SourceFile
from diagnose.knowledge.stock import Stock
from diagnose.problems import Collector, Place, Problem

MOST_TRIED = 24  # of more files it is not tried which single one spoils the rest


def stock_without_broken(shipped: Folder, shop: Folder, unread: Sequence[Problem] = ()) -> Stock:
    """What ships with all of the shop's files laid over it that load and cross-check clean.

    A file in which a problem stands is left out, then what no longer fits without it, and so on. Where the problems
    stand in what ships, it is the one file without which there are none, else the whole shop. ``unread``: problems
    of files that could not even be read. Raises PressloreError where what ships is itself at fault.
    """
    parsed: Parsed = {}
    files, problems = list(shop.files), list(unread)
    while True:
        stock, found = _compiled(shipped, shop, files, parsed)
        if stock and not found:
            gone = [file.shown for file in shop.files if file not in files]
            places = dict.fromkeys(Place(name) for name in (*(p.place.file for p in unread), *gone))
            return replace(stock, left_out=tuple(places), problems=tuple(problems))
        if not files:
            Collector(found).raise_if_any()
        spoilt = _standing_in(files, found) or _spoiling(shipped, shop, files, parsed)
        problems += [problem for problem in found if problem not in problems]
        files = [file for file in files if file not in spoilt]


def _compiled(
    shipped: Folder, shop: Folder, files: Sequence[SourceFile], parsed: Parsed
) -> tuple[Stock | None, list[Problem]]:
    found = Collector()
    stock = compile_stock((shipped, replace(shop, files=tuple(files))), found, parsed)
    return stock, list(found)


def _standing_in(files: Sequence[SourceFile], problems: Sequence[Problem]) -> list[SourceFile]:
    places = {problem.place.file for problem in problems}
    return [file for file in files if file.shown in places]


def _spoiling(shipped: Folder, shop: Folder, files: Sequence[SourceFile], parsed: Parsed) -> list[SourceFile]:
    """The first file without which nothing is wrong; all of them where there is none such."""
    for file in files if len(files) <= MOST_TRIED else ():
        stock, found = _compiled(shipped, shop, [other for other in files if other != file], parsed)
        if stock and not found:
            return [file]
    return list(files)
