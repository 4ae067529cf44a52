"""Says in plain words what a JSON Schema error means: what is there, what should be, how to mend it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from jsonschema.exceptions import ValidationError

from diagnose.knowledge.documents.document import KeyPath
from diagnose.knowledge.documents.scalars import hint_for_text
from diagnose.knowledge.near import did_you_mean

_TYPES = {
    "object": "a mapping of keys and values",
    "array": "a list",
    "string": "text",
    "number": "a number",
    "integer": "a whole number",
    "boolean": "true or false",
    "null": "nothing",
}
_CODES = {
    "type": "wrong-type",
    "enum": "unknown-word",
    "const": "unknown-word",
    "pattern": "wrong-form",
    "maxLength": "wrong-form",
    "minimum": "out-of-range",
    "maximum": "out-of-range",
    "exclusiveMinimum": "out-of-range",
    "minItems": "wrong-count",
    "maxItems": "wrong-count",
    "minProperties": "wrong-count",
    "maxProperties": "wrong-count",
    "uniqueItems": "repeated",
}
_BOUNDS = {
    "minimum": "at least",
    "maximum": "at most",
    "exclusiveMinimum": "above",
    "minItems": "at least",
    "maxItems": "at most",
    "minProperties": "at least",
    "maxProperties": "at most",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Breach:
    """One breach of a schema. ``breaks`` is False where the rest of the part can still be read."""

    path: KeyPath
    code: str
    wrong: str
    expected: str = ""
    hint: str = ""
    at_key: bool = False
    breaks: bool = True


@dataclass(frozen=True, slots=True)
class _Breach:
    """A schema error in plain types: the rule broken, what it asks for, and the value that broke it."""

    path: KeyPath
    rule: str
    wanted: Any
    value: Any
    schema: Mapping[str, Any]
    message: str

    @property
    def title(self) -> str:
        return str(self.schema.get("title", ""))


def faults(error: ValidationError) -> Iterator[Breach]:
    """Every fault that a schema error stands for: one, or one for each unknown key."""
    breach = _breach(error)
    path, rule = breach.path, breach.rule
    if "propertyNames" in list(error.absolute_schema_path)[-4:-1]:
        wrong = f'the key "{breach.value}"'
        yield Breach(path=(*path, breach.value), code="wrong-form", wrong=wrong, expected=breach.title, at_key=True)
    elif rule == "additionalProperties":
        yield from _unknown_keys(breach)
    elif rule in ("required", "dependentRequired"):
        yield _missing_key(breach)
    elif rule == "not" and not breach.wanted:
        wrong = f'the key "{path[-1]}"'
        yield Breach(path=path, code="misplaced-key", wrong=wrong, expected=breach.title, at_key=True)
    else:
        code = "empty-text" if breach.wanted == r"\S" else _CODES.get(rule, "wrong-form")
        wrong = shown(breach.value)
        yield Breach(path=path, code=code, wrong=wrong, expected=_expected(breach), hint=_hint(breach))


def shown(value: object) -> str:
    """A value as a reader knows it from the file, cut short where it is long."""
    if value is None:
        return "nothing is written here"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'"{value}"' if len(value) <= 40 else f'"{value[:37]}..."'
    if isinstance(value, list):
        return "an empty list" if not value else f"a list of {len(value)}"
    if isinstance(value, dict):
        return "an empty mapping" if not value else f"a mapping of {len(value)}"
    return str(value)


def _breach(error: ValidationError) -> _Breach:
    path: KeyPath = tuple(step if isinstance(step, int) else str(step) for step in error.absolute_path)
    schema = error.schema if isinstance(error.schema, Mapping) else {}
    return _Breach(path, str(error.validator), error.validator_value, error.instance, schema, error.message)


def _unknown_keys(breach: _Breach) -> Iterator[Breach]:
    known = list(breach.schema.get("properties", {}))
    for key in breach.value:
        if key not in known:
            yield Breach(
                path=(*breach.path, key),
                code="unknown-key",
                wrong=f'unknown key "{key}"',
                expected=_one_of(known),
                hint=did_you_mean(key, known),
                at_key=True,
                breaks=False,
            )


def _missing_key(breach: _Breach) -> Breach:
    wanted = breach.wanted
    if isinstance(wanted, Mapping):
        wanted = [key for keys in wanted.values() for key in keys]
    key = next((key for key in wanted if f"{key!r} is a" in breach.message), str(wanted))
    expected = str(breach.schema.get("properties", {}).get(key, {}).get("title", ""))
    wrong = f'the key "{key}" is missing'
    return Breach(path=breach.path, code="missing-key", wrong=wrong, expected=expected, at_key=True)


def _expected(breach: _Breach) -> str:
    rule, wanted = breach.rule, breach.wanted
    if rule in _BOUNDS:
        return f"{_BOUNDS[rule]} {wanted}"
    if rule == "uniqueItems":
        return "each entry once"
    if rule == "maxLength":
        return f"at most {wanted} characters"
    if rule == "pattern" and wanted == r"\S":
        return "some text"
    if rule == "enum":
        return f"{breach.title}: {', '.join(map(str, wanted))}"
    if rule == "type" and isinstance(wanted, str):
        kind = _TYPES[wanted]
        return f"{kind}: {breach.title}" if breach.title not in ("", kind) else kind
    return breach.title or str(wanted)


def _hint(breach: _Breach) -> str:
    rule, value, wanted = breach.rule, breach.value, breach.wanted
    if rule == "maximum":
        return str(breach.schema.get("hint", ""))
    if isinstance(value, str):
        near = did_you_mean(value, map(str, wanted)) if rule == "enum" else ""
        truth = isinstance(wanted, bool) or (rule == "type" and "boolean" in wanted)
        return near or (hint_for_text(value, truth) if rule in ("enum", "const", "type") else "")
    if rule == "type" and "string" in wanted and isinstance(value, int | float):
        return f'if it is meant as text, put it in quotes: "{shown(value)}"'
    return ""


def _one_of(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"one of {', '.join(words)}"
