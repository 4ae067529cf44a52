"""What classes say of their form in a file is what the schemas say, key by key, at every depth."""

from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from diagnose.knowledge.documents.schema_check import Kind, schema
from diagnose.knowledge.forms import Part, form, leading
from diagnose.knowledge.layer import Addition
from diagnose.knowledge.model import KINDS, Defect, Rule
from diagnose.knowledge.shop import Shop

BY_ITSELF = ("id", "place", "origin")  # not written in an entry

ENTRIES = {kind: schema("kb")["properties"][kind]["additionalProperties"] for kind in KINDS if kind != "defects"}


@pytest.mark.parametrize("kind", ENTRIES)
def test_an_entry_has_the_keys_of_its_schema(kind: str) -> None:
    assert written(KINDS[kind].made) == allowed(ENTRIES[kind], "kb")


def test_a_rule_file_has_the_keys_of_its_schema() -> None:
    file = allowed(schema("rule"), "rule")
    rule = {key for key in file if key[0] == "rules" and len(key) > 1}
    frame = {("defect",), ("adds-to",), ("status",), ("date",), ("usual-basis",)}
    in_short = {("rules", "by")}  # a cause and how surely it brings the defect on, together
    assert written(Defect) | frame | in_short == file | {("rules", "defect")}
    assert {("rules", *key) for key in written(Rule)} | in_short == rule | {("rules", "defect")}
    assert written(Addition) <= file | {("defect",), ("rules", "defect")}


def test_a_shop_has_the_keys_of_its_schema() -> None:
    assert written(Shop) | {("presses", "id")} == allowed(schema("shop"), "shop")


def test_what_is_sought_is_found_at_any_depth() -> None:
    def refers(part: Part) -> bool:
        return part.refers == "materials"

    assert [part.name for part in leading(KINDS["items"].made, refers)] == ["body"]
    assert leading(KINDS["sources"].made, refers) == ()


def written(of: Any) -> set[tuple[str, ...]]:
    """The keys that a class stands under in a file, with those of what it holds."""
    return {key for part in form(of) if part.name not in BY_ITSELF for key in _keys(part)}


def _keys(part: Part) -> Iterator[tuple[str, ...]]:
    if part.gathers:
        yield from ((key,) for key in part.gathers)
    elif part.path:
        yield from (part.path[:end] for end in range(1, len(part.path) + 1))
    yield from ((*part.path, *key) for key in (written(part.parts) if part.parts else ()))


def allowed(part: Any, kind: Kind) -> set[tuple[str, ...]]:
    """The keys that a schema allows, with those of what stands there: in lists and by names as well."""
    if not isinstance(part, Mapping):
        return set()
    if "$ref" in part:
        file, name = part["$ref"].split("#/$defs/")
        kind = "kb" if file == "kb.json" else kind
        part = {**schema(kind)["$defs"][name], **part, "$ref": ""}
        part.pop("$ref")
    keys = {(key,) for key in part.get("properties", {})}
    keys |= {(key, *below) for key, each in part.get("properties", {}).items() for below in allowed(each, kind)}
    within = (part.get("items"), part.get("additionalProperties"))
    return keys.union(*(allowed(each, kind) for each in within))
