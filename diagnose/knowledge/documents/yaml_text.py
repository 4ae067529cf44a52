"""YAML text -> plain values with positions, with everything refused that YAML lets slip.

Refused are duplicate keys, anchors, aliases, tags, keys that are no text, several documents, tabs, control
characters, and anything but UTF-8. See ``scalars`` for what an unquoted word may mean.
"""

import re

import yaml

from diagnose.knowledge.documents.document import Document
from diagnose.knowledge.documents.yaml_tree import Stop, TreeBuilder
from diagnose.knowledge.limits import MOST_FILE_BYTES
from diagnose.problems import MOST_SHOWN, Collector, Place, Problem

_LOADER: type[yaml.CSafeLoader] | type[yaml.SafeLoader] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_SYNTAX_HINT = "quote a text that holds `: ` or ` #`, or starts with a sign such as > [ { * &"
_EMPTY_HINT = "fill the file or delete it"
_UNWANTED = re.compile(r"[^\n\r\x20-\x7e\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")


def read_yaml(data: bytes, file: str) -> tuple[Document | None, list[Problem]]:
    """The document in ``data`` and what is wrong with it; None where nothing can be read. Never raises.

    A document that comes with problems still holds everything else that the file says.
    """
    found = Collector(most=MOST_SHOWN)
    text = _decode(data, file, found)
    document = None if text is None else _build(text, file, found)
    return document, list(found)


def _decode(data: bytes, file: str, found: Collector) -> str | None:
    if len(data) > MOST_FILE_BYTES:
        found.add(Place(file), "file-size", f"{len(data)} bytes", expected=f"at most {MOST_FILE_BYTES}")
        return None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        found.add(
            Place(file, line, 1),
            "not-utf-8",
            "bytes that are no UTF-8 text",
            expected="UTF-8",
            hint="save the file as UTF-8 in your editor",
        )
        return None
    line, start = 1, 0
    for match in _UNWANTED.finditer(text):
        if found.full:
            break
        if match[0] == "\t" or not found:
            line += text.count("\n", start, match.start())
            start = match.start()
            _refuse_character(match[0], Place(file, line, start - text.rfind("\n", 0, start)), found)
    return None if found else text


def _refuse_character(character: str, place: Place, found: Collector) -> None:
    if character == "\t":
        found.add(place, "tab", "a tab", expected="spaces", hint="indent by two spaces a level")
    else:
        found.add(
            place,
            "control-character",
            f"a control character (U+{ord(character):04X})",
            expected="plain text",
            hint="delete it; it may be invisible in your editor",
        )


def _build(text: str, file: str, found: Collector) -> Document | None:
    tree = TreeBuilder(file, found)
    try:
        for event in yaml.parse(text, Loader=_LOADER):
            tree.take(event)
    except Stop:
        return None
    except (yaml.YAMLError, RecursionError, ValueError) as error:
        wrong = f"this is not YAML: {_error_words(error)}"
        found.add(_error_place(error, file), "not-yaml", wrong, hint=_SYNTAX_HINT)
        return None
    if tree.root is None:
        if not found:
            found.add(Place(file, 1, 1), "empty-file", "nothing is written here", hint=_EMPTY_HINT)
        return None
    return Document(file, tree.root, tree.keys, tree.values, frozenset(tree.spoilt))


def _error_place(error: Exception, file: str) -> Place:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    return Place(file, mark.line + 1, mark.column + 1) if mark else Place(file, 1, 1)


def _error_words(error: Exception) -> str:
    words = [getattr(error, "context", None), getattr(error, "problem", None)]
    return ", ".join(str(word) for word in words if word) or type(error).__name__
