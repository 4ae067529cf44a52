"""Nothing is asserted without somebody's word."""

from collections.abc import Iterator
from typing import Final

from diagnose.knowledge.crosscheck.check import Found
from diagnose.knowledge.crosscheck.within import spots
from diagnose.knowledge.forms import Part
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.materials import Property
from diagnose.knowledge.near import nearest

FROM_MEMORY: Final = "from memory"  # for the property of a material only
THIS_SHOPS_CASES: Final = "this shop's cases"
ANOTHER_SHOPS_CASES: Final = "another shop's cases"  # in rules that were taken from a bundle
PLAIN_PHRASES: Final = ("common practice", THIS_SHOPS_CASES)
_NO_SOURCE: Final = "chosen for presslore"


def unknown_bases(layer: Layer) -> Iterator[Found]:
    """A basis is the id of a source or one of the plain phrases."""
    sources = layer.ids("sources")
    for spot in spots(layer, _is_basis):
        phrases = (*PLAIN_PHRASES, FROM_MEMORY) if isinstance(spot.whole, Property) else PLAIN_PHRASES
        known = {*sources, *phrases, ANOTHER_SHOPS_CASES} if spot.held else ()
        for each in spot.held:
            if each not in known:
                yield Found(
                    layer.value_within(spot.place, *spot.path),
                    f'"{each}" is neither a source nor a plain phrase',
                    f"the id of a source, {', '.join(phrases[:-1])} or {phrases[-1]}",
                    nearest(each, known),
                )


def _is_basis(part: Part) -> bool:
    return part.name == "basis"


def unknown_scale_sources(layer: Layer) -> Iterator[Found]:
    """A word of the scale names the source of its number, or says that presslore chose it."""
    known = {*layer.ids("sources"), _NO_SOURCE}
    for word in layer.scale.words.values():
        if word.source not in known:
            yield Found(
                layer.scale.places[word.word],
                f'"{word.source}" is no source for "{word.word}"',
                f"the id of a source or {_NO_SOURCE}",
                nearest(word.source, known),
            )
