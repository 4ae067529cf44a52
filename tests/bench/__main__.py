"""Runs the measurements of this package: ``python -m tests.bench [--markdown] [name ...]``.

A measurement is a module in here with ``run()``, which gives its rows. Ends with 1 where a row misses its limit.
"""

import argparse
import sys
from collections.abc import Callable, Iterable, Sequence
from importlib import import_module
from pkgutil import iter_modules
from typing import TypeAlias

import tests.bench
from tests.bench.rows import Row, markdown, table

Run: TypeAlias = Callable[[], Iterable[Row | Sequence[object]]]


def measurements() -> dict[str, Run]:
    """Every measurement there is, by name."""
    names = (module.name for module in iter_modules(tests.bench.__path__))
    modules = {name: import_module(f"tests.bench.{name}") for name in sorted(names) if _may_measure(name)}
    return {name: module.run for name, module in modules.items() if hasattr(module, "run")}


def _may_measure(name: str) -> bool:
    return name != "__main__" and not name.startswith("test_")


def main(arguments: Sequence[str] | None = None) -> int:
    found = measurements()
    parser = argparse.ArgumentParser(prog="./dev bench", description="Measure the reasoning.")
    parser.add_argument("names", nargs="*", metavar="name", help=f"what to measure, of: {', '.join(found)}")
    parser.add_argument("--markdown", action="store_true", help="print a Markdown table")
    asked = parser.parse_args(arguments)
    if unknown := [name for name in asked.names if name not in found]:
        parser.error(f"no measurement called {', '.join(unknown)}; there are: {', '.join(found)}")
    rows: list[Row] = []
    for name in asked.names or found:
        print(f"bench: {name} ...", file=sys.stderr, flush=True)
        rows += map(Row.of, found[name]())
    print(markdown(rows) if asked.markdown else table(rows))
    return 1 if any(row.ok is False for row in rows) else 0


if __name__ == "__main__":
    sys.exit(main())
