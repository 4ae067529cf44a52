"""A draft of a new rule: what a person has said so far, as they said it; read from and written to a file."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from diagnose.casebook.proposing.fields import FIELDS, NUMBER, PARTS, Field
from diagnose.files.reading import read
from diagnose.problems import Collector, Place, PressloreError

HEAD = (
    "A draft of a new rule. Take away the # in front of what you fill in, then: presslore rules new --draft FILE\n"
    "The examples speak of towels that come cold from the store. Leave out what does not apply."
)


@dataclass(frozen=True, slots=True)
class Draft:
    """Texts by field, none of them blank and without blanks round them; a field that holds several has a tuple."""

    said: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @classmethod
    def of(cls, values: Mapping[str, str | tuple[str, ...] | list[str] | None]) -> "Draft":
        """The draft with these values; what is blank or None is left out."""
        draft = cls()
        for name, value in values.items():
            each = (value,) if isinstance(value, str) else tuple(value or ())
            draft = draft.having(name, *each)
        return draft

    def one(self, name: str) -> str:
        """What a field says, "" where it says nothing."""
        return (self.said.get(name) or ("",))[0]

    def each(self, name: str) -> tuple[str, ...]:
        return self.said.get(name, ())

    def has(self, name: str) -> bool:
        return name in self.said

    def having(self, name: str, *values: str) -> "Draft":
        """The draft with these values in a field, in place of those it had; none at all clears it."""
        assert name in FIELDS, name
        kept = tuple(value.strip() for value in values if value.strip())
        others = {key: value for key, value in self.said.items() if key != name}
        return Draft({**others, name: kept} if kept else others)

    def without(self, *names: str) -> "Draft":
        return Draft({key: value for key, value in self.said.items() if key not in names})

    def over(self, other: "Draft") -> "Draft":
        """This draft laid over another one, field by field."""
        return Draft({**other.said, **self.said})


def read_draft(path: Path) -> Draft:
    """The draft in a file. Raises PressloreError with everything that is wrong with it."""
    from diagnose.knowledge.documents.yaml_text import read_yaml
    from diagnose.knowledge.limits import MOST_FILE_BYTES
    from diagnose.knowledge.near import did_you_mean

    document, problems = read_yaml(read(path, most=MOST_FILE_BYTES), str(path))
    if document is None or problems:
        raise PressloreError(problems)
    found = Collector()
    values: dict[str, list[str]] = {}
    for name, value in document.value.items() if isinstance(document.value, dict) else ():
        if name not in FIELDS:
            wrong = f'a draft has no "{name}"'
            found.add(document.key_place((name,)), "unknown-field", wrong, hint=did_you_mean(name, FIELDS))
        else:
            values[name] = list(_texts(FIELDS[name], value, found, document.value_place((name,))))
    if not isinstance(document.value, dict):
        found.add(Place(str(path), 1, 1), "no-draft", "not a draft", expected="lines such as: defect: faint-colour")
    found.raise_if_any()
    return Draft.of(values)


def _texts(field: Field, value: Any, found: Collector, place: Place) -> Iterator[str]:
    values = value if isinstance(value, list) else [value]
    if len(values) > 1 and not field.many:
        found.add(place, "one-text", f"{field.name} holds {len(values)} values", expected="one")
    for each in values:
        if isinstance(each, bool | str | int | float):
            yield str(each).lower() if isinstance(each, bool) else str(each)
        elif each is not None:
            found.add(place, "plain-text", f"{field.name} holds lines of its own", expected="plain text")


def empty_draft() -> str:
    """A draft to fill in: every field with what it means and an example, all of it commented out."""
    from diagnose.casebook.writing.rendering import entry

    lines = [f"# {line}" for line in HEAD.splitlines()]
    for part, fields in PARTS.items():
        lines += ["", f"# ---- {part} ----"]
        for each in fields:
            several = " Several: [one, another]." if each.many else ""
            example = int(each.example) if each.kind == NUMBER else each.example
            lines += [f"# {each.about}{several}", f"#{entry(each.name, example, 0)}"]
    return "\n".join(lines) + "\n"
