"""The lexicon made ready at every start: from the cache folder where nothing it is made from has changed.

What is kept are plain lists, texts and numbers, under a digest of every text the lexicon is made from, of the table
that ships and of the code that makes it. The table itself is not kept again: what a shop has of its own is. Whatever is
wrong with what was kept, the lexicon is simply made again.
"""

from dataclasses import replace
from functools import lru_cache
from hashlib import blake2b
from pathlib import Path
from typing import Any

from diagnose.knowledge import kept
from diagnose.knowledge.model import Knowledge
from diagnose.reasoning.words.groups import Groups, Phrase
from diagnose.reasoning.words.index import Index
from diagnose.reasoning.words.lexicon import Lexicon, build, texts
from diagnose.reasoning.words.slips import Speller
from diagnose.reasoning.words.table import WordLayer, table
from diagnose.reasoning.words.units import Reader

ROWS = "/"  # between rows kept as one text
_NAME = "words-{}.json"


def lexicon(knowledge: Knowledge, cache_dir: Path | None = None) -> Lexicon:
    """The lexicon of everything that is known: make it ready once, then ask it as often as you like. ``cache_dir``
    is where it is kept (None: the usual place)."""
    folder = cache_dir or kept.usual_folder()
    if folder is None:
        return build(knowledge)
    path = folder / _NAME.format(_key(knowledge))
    try:
        with kept.without_collector():
            return from_plain(knowledge, kept.read(path))
    except kept.FOREIGN:
        made = build(knowledge)
        kept.write(path, to_plain(made), _NAME.format("*"))
        return made


@lru_cache
def code_digest() -> str:
    """A digest of the code that makes a lexicon, and of the table."""
    return kept.digest_of_code(Path(__file__).parent)


def to_plain(lexicon: Lexicon) -> dict[str, Any]:
    """Plain JSON values for all of a lexicon but the knowledge and the table that ships."""
    ships = table()
    return {
        "names": list(lexicon.names),
        "groups": _plain_groups(lexicon.reader.groups),
        "literal": _plain_groups(lexicon.literal.groups),
        "speller": lexicon.speller.to_plain(),
        "items": _plain_index(lexicon.items),
        "own": [_plain_own(lexicon.sights, ships.sights), _plain_own(lexicon.answers, ships.answers)],
        "said": {name: list(told) for name, told in lexicon.said.items()},
    }


def from_plain(knowledge: Knowledge, plain: Any) -> Lexicon:
    """The lexicon that ``to_plain`` made ``plain`` from. Raises one of ``kept.FOREIGN`` for anything else."""
    ships = table()
    sights, answers = plain["own"]
    return Lexicon(
        knowledge=knowledge,
        reader=Reader(_groups(plain["groups"])),
        literal=Reader(_groups(plain["literal"])),
        speller=Speller.from_plain(plain["speller"]),
        items=_index(plain["items"]),
        names=plain["names"],
        sights=_with_own(ships.sights, sights),
        answers=_with_own(ships.answers, answers),
        said=plain["said"],
    )


def _key(knowledge: Knowledge) -> str:
    state = blake2b(code_digest().encode(), digest_size=16)
    state.update("\n".join(texts(knowledge)).encode("utf-8", "surrogatepass"))
    return state.hexdigest()


def _plain_groups(groups: Groups) -> list[Any]:
    phrases = {start: [list(phrase) for phrase in each] for start, each in groups.phrases.items()}
    return [dict(groups.of_stem), phrases, sorted(groups.plain)]


def _groups(plain: list[Any]) -> Groups:
    of_stem, phrases, words = plain
    made = {start: [Phrase(*each) for each in found] for start, found in phrases.items()}
    return Groups(dict(of_stem), made, frozenset(words), frozenset())


def _plain_own(layer: WordLayer, ships: WordLayer) -> list[Any]:
    """A shop's own classes of a layer, and what features say of them."""
    held = len(ships.classes)
    extra = {feature: {str(told): weight for told, weight in row.items()} for feature, row in layer.extra.items()}
    return [list(layer.classes[held:]), list(layer.bias[held:]), extra]


def _with_own(ships: WordLayer, plain: list[Any]) -> WordLayer:
    classes, bias, extra = plain
    if not classes:
        return ships
    made = {feature: {int(told): weight for told, weight in row.items()} for feature, row in extra.items()}
    return replace(ships, classes=[*ships.classes, *classes], bias=[*ships.bias, *bias], extra=made, _read={})


def _plain_index(index: Index) -> list[Any]:
    lines = [ROWS.join(each) for each in (index.units, index.kinds, index.places)]
    numbers = [list(each) for each in (index.owner, index.fields, index.totals, index.kind_weights)]
    return [list(index.owners), *numbers, *lines, dict(index.of_feature), dict(index.pairs)]


def _index(plain: list[Any]) -> Index:
    owners, owner, fields, totals, kind_weights, units, kinds, places, of_feature, pairs = plain
    return Index(
        owners=owners,
        owner=owner,
        fields=fields,
        units=units.split(ROWS),
        totals=totals,
        kinds=kinds.split(ROWS),
        kind_weights=kind_weights,
        places=places.split(ROWS),
        of_feature=of_feature,
        pairs=pairs,
    )
