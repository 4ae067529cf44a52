"""The long way from files to knowledge: parse, check the structure, read, lay over, cross-check."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from diagnose.knowledge.crosscheck.registry import cross_check
from diagnose.knowledge.document import Document
from diagnose.knowledge.folders import Folder, SourceFile, digest
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.node import broken_parts
from diagnose.knowledge.overlay import lay
from diagnose.knowledge.readers.files import read_kb_file, read_rule_file, read_scale
from diagnose.knowledge.readers.reading import Reading
from diagnose.knowledge.schema_check import check_structure
from diagnose.knowledge.yaml_text import read_yaml
from diagnose.problems import Collector, Place


@dataclass(slots=True)
class _Documents:
    """The documents of one folder; ``lost`` counts files that could not be parsed at all."""

    origin: str
    kb: list[Document] = field(default_factory=list)
    rules: list[Document] = field(default_factory=list)
    lost: int = 0


def compile_knowledge(folders: Sequence[Folder], found: Collector) -> Knowledge | None:
    """Knowledge from folders, the later laid over the earlier; every problem goes into ``found``.

    None where a problem leaves gaps or loose ends, so that nothing could be relied on.
    """
    documents = [_parse(folder, found) for folder in folders]
    whole = lay(_read(documents, found), found)
    gaps = bool(found)
    loose = cross_check(whole, found, lost=any(each.lost for each in documents), gaps=gaps)
    return None if gaps or loose else _knowledge(whole, digest(folders))


def _parse(folder: Folder, found: Collector) -> _Documents:
    documents = _Documents(folder.origin)
    for file in folder.files:
        document = _checked(file, found)
        if document is None:
            documents.lost += 1
        else:
            (documents.kb if file.kind == "kb" else documents.rules).append(document)
    return documents


def _checked(file: SourceFile, found: Collector) -> Document | None:
    document, problems = read_yaml(file.data, file.shown)
    found.problems += problems
    if document is None:
        return None
    document, problems = check_structure(document, file.kind)
    found.problems += problems
    return document


def _read(folders: Sequence[_Documents], found: Collector) -> list[Layer]:
    scale = read_scale(document for folder in folders for document in folder.kb)
    if not scale.scale and not any(folder.lost for folder in folders):
        found.add(Place("kb/scales.yaml"), "no-scale", "no words for chances", expected="a kb file with `scale`")
    return [scale, *(_layer(folder, Reading(scale.scale, folder.origin, found)) for folder in folders)]


def _layer(folder: _Documents, reading: Reading) -> Layer:
    layer = Layer()
    for document in folder.kb:
        read_kb_file(document, layer, reading)
    for document in folder.rules:
        read_rule_file(document, layer, reading)
    layer.broken = [node for document in (*folder.kb, *folder.rules) for node in broken_parts(document)]
    return layer


def _knowledge(layer: Layer, version: str) -> Knowledge:
    return Knowledge(
        version=version,
        scale=layer.scale,
        scale_note=layer.scale_note,
        facts=layer.facts,
        causes=layer.causes,
        checks=layer.checks,
        fixes=layer.fixes,
        defects=layer.defects,
        items=layer.items,
        cautions=layer.cautions,
        glossary=layer.glossary,
        sources=layer.sources,
        words=layer.words,
        care=layer.care,
        heard=layer.heard,
    )
