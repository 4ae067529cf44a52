"""The long way from files to knowledge: parse, check the structure, read, lay over, cross-check."""

from collections.abc import MutableMapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import TypeAlias

from diagnose.knowledge.crosscheck.registry import cross_check
from diagnose.knowledge.dangers import can_be_looked_at, with_cautions
from diagnose.knowledge.documents.document import Document, broken_parts
from diagnose.knowledge.documents.schema_check import check_structure
from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.knowledge.folders import Folder, SourceFile, digest
from diagnose.knowledge.layer import Layer, Scale
from diagnose.knowledge.laying.overlay import lay
from diagnose.knowledge.laying.ways_taken import heard, take_ways, word_groups
from diagnose.knowledge.laying.within_limits import within_limits
from diagnose.knowledge.limits import MOST_VALUES, SPLIT
from diagnose.knowledge.model import KINDS, Knowledge
from diagnose.knowledge.readers.files import read_kb_file, read_rule_file, read_scale, read_shop_file
from diagnose.knowledge.readers.reading import FolderReading
from diagnose.knowledge.shop import Shop, Stock
from diagnose.problems import MOST_SHOWN, Collector, Place, Problem

Parsed: TypeAlias = MutableMapping[SourceFile, tuple[Document | None, list[Problem]]]


@dataclass(slots=True)
class _Documents:
    """The documents of one folder. ``origins``: by file, whose those are that are not the folder's own. ``lost``
    counts files that could not be parsed at all."""

    origin: str
    origins: dict[str, str] = field(default_factory=dict)
    kb: list[Document] = field(default_factory=list)
    rules: list[Document] = field(default_factory=list)
    shop: list[Document] = field(default_factory=list)
    ways: list[SourceFile] = field(default_factory=list)
    lost: int = 0


def compile_stock(folders: Sequence[Folder], found: Collector, parsed: Parsed | None = None) -> Stock | None:
    """Knowledge and the shop from folders, the later laid over the earlier; every problem goes into ``found``.

    None where a problem leaves gaps or loose ends, so that nothing could be relied on. ``parsed`` keeps what files
    hold, for whoever compiles some of them again.
    """
    parsed = {} if parsed is None else parsed
    documents = [_parse(folder, found, parsed, lowest=folder is folders[0]) for folder in folders]
    scale = _scale(documents, found)
    layers = [_layer(folder, FolderReading(scale.words, folder.origin, found)) for folder in documents]
    if [layer for layer in layers if not within_limits(layer, found)]:
        return None
    whole = lay(scale, layers, found)
    if not can_be_looked_at(whole, found):
        return None
    with_cautions(whole)
    gaps = bool(found)
    take_ways(whole, [(folder.ways, folder.origin) for folder in documents], found)
    loose = cross_check(whole, found, lost=any(each.lost for each in documents), gaps=gaps)
    if gaps or loose:
        return None
    return Stock(knowledge=_knowledge(whole, digest(folders)), shop=whole.shops[-1] if whole.shops else Shop())


def _parse(folder: Folder, found: Collector, parsed: Parsed, *, lowest: bool) -> _Documents:
    documents = _Documents(folder.origin)
    values = 0
    by_kind = {"kb": documents.kb, "rule": documents.rules, "shop": documents.shop}
    for file in folder.files:
        if file.kind == "ways":
            documents.ways.append(file)
            continue
        if file not in parsed:
            parsed[file] = (_checked_once if lowest else _checked)(file, 1 if found.full else MOST_SHOWN)
        document, problems = parsed[file]
        found.take(problems)
        values += len(document.values) if document else 0
        if values > MOST_VALUES:
            wrong = f"more than {MOST_VALUES:,} texts, numbers, lists and mappings in one folder"
            found.add(Place(file.shown), "too-many-values", wrong, hint=SPLIT)
            documents.lost += 1
            break
        if document is None:
            documents.lost += 1
        else:
            by_kind[file.kind].append(document)
            documents.origins[document.file] = file.origin or folder.origin
    return documents


def _checked(file: SourceFile, most: int) -> tuple[Document | None, list[Problem]]:
    """The file's document and what is wrong with it; None where that was not looked for to the end."""
    document, problems = read_yaml(file.data, file.shown)
    if document is None:
        return None, problems
    assert file.kind != "ways"
    document, more = check_structure(document, file.kind, most)
    return (document if len(more) < most else None), [*problems, *more]


# What ships lies below every shop's own files: a command that tries changes compiles it again and again.
_checked_once = lru_cache(maxsize=256)(_checked)


def _scale(folders: Sequence[_Documents], found: Collector) -> Scale:
    scale = read_scale(document for folder in folders for document in folder.kb)
    if not scale.words and not any(folder.lost for folder in folders):
        found.add(Place("kb/scales.yaml"), "no-scale", "no words for chances", expected="a kb file with `scale`")
    return scale


def _layer(folder: _Documents, reading: FolderReading) -> Layer:
    layer = Layer()
    for document in folder.kb:
        read_kb_file(document, layer, replace(reading, origin=folder.origins[document.file]))
    for document in folder.rules:
        read_rule_file(document, layer, replace(reading, origin=folder.origins[document.file]))
    for document in folder.shop:
        read_shop_file(document, layer, reading)
    layer.broken.extend(node for document in (*folder.kb, *folder.rules) for node in broken_parts(document))
    return layer


def _knowledge(layer: Layer, version: str) -> Knowledge:
    return Knowledge(
        version=version,
        scale=layer.scale.words,
        scale_note=layer.scale.note,
        heard=heard(layer.ways),
        unlearned=tuple(layer.unlearned),
        **{kind: layer.of(kind) for kind in KINDS if kind != "words"},
        words={**word_groups(layer.ways), **layer.words},
    )
