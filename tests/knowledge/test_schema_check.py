import json
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from diagnose.knowledge.documents.document import Document
from diagnose.knowledge.documents.schema_check import SCHEMA_FOLDER, Kind, check_structure, schema
from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.knowledge.folders import shipped_folder

BOTH: tuple[Kind, ...] = ("kb", "rule")


def read(text: str) -> Document:
    document, problems = read_yaml(text.encode(), "some.yaml")
    assert document is not None
    assert problems == []
    return document


def scale_words() -> dict[str, float]:
    path = shipped_folder() / "kb" / "scales.yaml"
    document, _ = read_yaml(path.read_bytes(), "scales.yaml")
    assert document is not None
    whole: Any = document.value
    return {word["word"]: word["value"] for word in whole["scale"]}


@pytest.mark.parametrize("kind", BOTH)
def test_schemas_are_schemas(kind: Kind) -> None:
    Draft202012Validator.check_schema(schema(kind))


@pytest.mark.parametrize("kind", BOTH)
def test_nothing_unknown_is_let_through(kind: Kind) -> None:
    def closed(part: object) -> bool:
        if isinstance(part, list):
            return all(map(closed, part))
        if not isinstance(part, dict):
            return True
        mapping = part.get("type") == "object"
        return (not mapping or "additionalProperties" in part) and all(map(closed, part.values()))

    assert closed(schema(kind))


def test_words_for_chances_are_those_of_the_scale() -> None:
    defs = schema("kb")["$defs"]
    words = set(scale_words())
    assert set(defs["prior"]["then"]["enum"]) == words
    assert set(defs["scale-word"]["properties"]["word"]["enum"]) == words
    assert set(defs["chance"]["then"]["enum"]) == words - {"certain", "impossible"}


def test_words_stand_in_the_order_of_their_numbers() -> None:
    words = scale_words()
    assert schema("kb")["$defs"]["prior"]["then"]["enum"] == sorted(words, key=lambda word: -words[word])


@pytest.mark.parametrize("name", ["kb.json", "rule.json"])
def test_every_definition_is_described_for_an_editor(name: str) -> None:
    loaded = json.loads((SCHEMA_FOLDER / name).read_text(encoding="utf-8"))
    assert all("title" in each for each in [loaded, *loaded["$defs"].values()])


def test_an_unknown_key_leaves_the_entry_readable() -> None:
    document, problems = check_structure(
        read("glossary: {dwell: {term: Dwell, means: Time, basis: common practice, se: [a]}}"), "kb"
    )
    assert [problem.hint for problem in problems] == ["did you mean see?"]
    assert document.broken == frozenset()


def test_a_broken_rule_leaves_the_others_readable() -> None:
    document, problems = check_structure(
        read("adds-to: haze\nstatus: trial\ndate: 2026-11-24\nrules: [{cause: a}, 5]"), "rule"
    )
    assert [problem.code for problem in problems] == [
        "missing-key",
        "missing-key",
        "missing-key",
        "wrong-type",
    ]
    assert document.broken == {("rules", 0), ("rules", 1)}
