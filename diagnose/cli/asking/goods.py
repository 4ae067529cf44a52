"""Goods that are used up, typed as ``KIND=WORDS``: ``paper=the green box``."""

from collections.abc import Iterable

import click

from diagnose.dialogue.saving import clean
from diagnose.foresight.last_good import GOODS


def goods_used(pairs: Iterable[str]) -> dict[str, str]:
    """The goods by kind. Raises click.UsageError for a kind that is not known, or no words."""
    return dict(_one(pair) for pair in pairs)


def _one(pair: str) -> tuple[str, str]:
    kind, _, words = (part.strip() for part in pair.partition("="))
    if kind not in GOODS or not words:
        kinds = ", ".join(GOODS)
        raise click.UsageError(f"--used {pair}: expected one of {kinds}, and which: --used paper='the green box'")
    try:
        return kind, clean(words)
    except ValueError as error:
        raise click.UsageError(f"--used {kind}: {error}") from error
