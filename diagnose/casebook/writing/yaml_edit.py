"""A YAML file that is changed value by value: what is not changed keeps every letter, comments with it.

The file's text is cut and filled where the change is, never written anew from values: a general library that reads and
writes again joins the wrapped lines of the shipped files. After each change the text is read back and must say what
was meant; else nothing is changed and PressloreError says so.
"""

from collections.abc import Callable, Mapping
from copy import deepcopy
from pathlib import Path
from typing import Any

from diagnose.casebook.writing import places, rendering
from diagnose.casebook.writing.places import Spot
from diagnose.casebook.writing.plain import Key, keyed, plain, pruned, same, with_value, without_value
from diagnose.files.reading import read_if_there
from diagnose.files.writing import replace_all
from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.problems import PressloreError

_BYTE_ORDER_MARK = "\ufeff"


class YamlFile:
    """The YAML at ``path``; where there is none, an empty one that begins with the comment ``head``.

    Paths within it are keys and positions: ``("causes", "damp-item", "turns-up")``, ``("rules", 0, "brings")``.
    Raises PressloreError where the file cannot be read, or holds what presslore would refuse.
    """

    def __init__(self, path: Path, head: str = "") -> None:
        self.path = path
        self.before = read_if_there(path)
        text = (self.before or b"").decode("utf-8", "replace")
        self._mark = _BYTE_ORDER_MARK if text.startswith(_BYTE_ORDER_MARK) else ""
        self._text = text.removeprefix(_BYTE_ORDER_MARK) if self.before is not None else _comment(head, 0)
        self._break = "\r\n" if "\r\n" in self._text else "\n"
        self._value = self._parsed(self._text, self.before)
        self._put_off: list[tuple[int, int, str]] | None = None  # splices, while a whole value is set

    def text(self) -> str:
        """The whole file as it stands now."""
        return self._mark + self._text

    @property
    def data(self) -> bytes:
        return self.text().encode()

    @property
    def changed(self) -> bool:
        return self.before is None or self.data != self.before

    def get(self, *path: Key) -> Any:
        """The plain value at a path (a copy); None where there is none."""
        value = self._value
        for key in path:
            try:
                value = value[key]
            except (KeyError, IndexError, TypeError):
                return None
        return deepcopy(value)

    def set(self, path: tuple[Key, ...], value: Any, comment: str = "") -> None:
        """Put a value at a path: in the place of the one there, or as a new key at the end of its mapping, with
        ``comment`` in the lines above. Mappings on the way are made where they are missing. Of a mapping or list
        only what differs is touched."""
        wanted = plain(value)
        self._attempt(with_value(self._value, path, wanted), lambda: self._set_whole(path, wanted, comment))

    def append(self, path: tuple[Key, ...], value: Any, comment: str = "") -> None:
        """Put a value at the end of the list at a path, which is made where it is missing."""
        there = self.get(*path)
        if not there:
            self.set(path, [value], comment)
            return
        if not isinstance(there, list):
            raise PressloreError(f"{self.path}: {_shown(path)} is no list: nothing can be added to its end")
        self.set((*path, len(there)), value, comment)

    def remove(self, path: tuple[Key, ...]) -> None:
        """Take the key or entry at a path away with its value; nothing happens where there is none."""
        if self.get(*path) is not None and path:
            self._attempt(without_value(self._value, path), lambda: self._remove(path))

    def save(self) -> None:
        """Write the file, whole or not at all. Raises PressloreError where it cannot be written, or was changed by
        somebody else since it was read."""
        replace_all({self.path: (self.before, self.data)})
        self.before = self.data

    def _attempt(self, wanted: Any, change: Callable[[], None]) -> None:
        """Change the text; take it back where it then says anything but what was wanted."""
        kept = self._text
        try:
            change()
            got = self._parsed(self._text, self._text.encode())
            if not same(got, wanted):
                raise PressloreError(f"{self.path}: this change would spoil the file: make it by hand")
        except BaseException:
            self._text = kept
            raise
        self._value = got

    def _parsed(self, text: str, data: bytes | None) -> Any:
        if not text.strip() or all(line.lstrip()[:1] in ("", "#") for line in text.splitlines()):
            return {}
        document, problems = read_yaml(data or text.encode(), str(self.path))
        if document is None or problems:
            raise PressloreError(problems)
        return document.value

    def _set_whole(self, path: tuple[Key, ...], value: Any, comment: str) -> None:
        """What is no longer wanted goes first, one by one; then all else is found in one text and changed from its end,
        so that many values cost little more than one."""
        old = self.get(*path)
        self._prune(path, old, value)
        self._put_off = []
        try:
            self._set(path, pruned(old, value), value, comment)
            ready, self._put_off = self._put_off, None
        finally:
            self._put_off = None
        ready.reverse()  # of several at one place, the last goes in first
        for start, end, new in sorted(ready, key=lambda splice: splice[:2], reverse=True):
            self._splice(start, end, new)

    def _prune(self, path: tuple[Key, ...], old: Any, value: Any) -> None:
        """Take away what a mapping or list within no longer holds, where something of it stays."""
        entries, wanted = keyed(old), keyed(value)
        if not entries or not wanted or not any(key in wanted for key in entries):
            return
        for key in reversed([key for key in entries if key not in wanted]):
            self._remove((*path, key))
        for key in entries:
            if key in wanted:
                self._prune((*path, key), entries[key], wanted[key])

    def _set(self, path: tuple[Key, ...], old: Any, value: Any, comment: str) -> None:
        """Make ``value`` of the ``old`` one at a path. What is the same is not looked at again."""
        if same(old, value):
            return
        spot = places.find(self._text, path)
        if spot is None:
            self._add(path, value, comment)
        elif spot.is_mapping and isinstance(value, Mapping) and value:
            self._set_each(path, old, value)
        elif spot.is_list and isinstance(value, list) and value:
            self._set_each(path, dict(enumerate(old)), dict(enumerate(value)))
        else:
            self._replace(spot, value)

    def _set_each(self, path: tuple[Key, ...], old: Mapping[Any, Any], entries: Mapping[Any, Any]) -> None:
        if not any(key in entries for key in old):  # nothing would be left to hang the new ones on
            spot = places.find(self._text, path)
            assert spot is not None
            self._replace(spot, list(entries.values()) if spot.is_list else entries)
            return
        for key in sorted(entries, key=lambda key: key not in old):  # new ones last, behind all that the others get
            self._set((*path, key), old.get(key), entries[key], "")

    def _replace(self, spot: Spot, value: Any) -> None:
        is_entry = self._text[spot.after - 1 : spot.after] == "-"
        if spot.flow:
            self._splice(spot.start, spot.end, rendering.in_flow(value))
        elif is_entry:
            self._splice(spot.after, spot.end, rendering.after_dash(value, spot.indent))
        else:
            blanks = self._text[spot.after : spot.start]
            new = rendering.after_key(value, spot.indent)
            aligned = blanks.strip(" ") == "" and blanks and not new.startswith("\n")
            self._splice(spot.start if aligned else spot.after, spot.end, new[1:] if aligned else new)

    def _add(self, path: tuple[Key, ...], value: Any, comment: str) -> None:
        if not path:
            self._splice(len(self._text), len(self._text), self._at_end(rendering.block(value, 0), comment, 0))
            return
        *above, key = path
        holder = places.find(self._text, tuple(above))
        if holder is None or not (holder.is_mapping or holder.is_list):
            made = [value] if isinstance(key, int) else {key: value}
            self._set_holder(tuple(above), holder, made, comment)
        elif holder.in_brackets:
            new = rendering.in_flow({key: value})[1:-1] if holder.is_mapping else rendering.in_flow(value)
            *_, (_, last) = places.inside(self._text, holder)
            self._splice(last.end, last.end, f", {new}")
        else:
            self._add_lines(holder, key, value, comment)

    def _set_holder(self, above: tuple[Key, ...], holder: Spot | None, made: Any, comment: str) -> None:
        if holder is None:
            self._add(above, made, comment)
        else:
            self._replace(holder, made)

    def _add_lines(self, holder: Spot, key: Key, value: Any, comment: str) -> None:
        indent = holder.node.start_mark.column
        write = rendering.item(value, indent) if holder.is_list else rendering.entry(str(key), value, indent)
        end = places.line_end(self._text, holder.end)
        self._splice(end, end, "\n" + _comment(comment, indent) + write)

    def _at_end(self, lines: str, comment: str, indent: int) -> str:
        lead = "" if not self._text or self._text.endswith("\n") else "\n"
        return lead + _comment(comment, indent) + lines + "\n"

    def _remove(self, path: tuple[Key, ...]) -> None:
        *above, key = path
        holder = places.find(self._text, tuple(above))
        assert holder is not None
        entries = list(places.inside(self._text, holder))
        number = [name for name, _ in entries].index(key)
        spot = entries[number][1]
        if len(entries) == 1:
            self._empty(holder)
        elif number == 0:  # its line may hold the dash or bracket that the others hang on
            self._splice(spot.begin, entries[1][1].begin, "")
        elif spot.flow:
            self._splice(entries[number - 1][1].end, spot.end, "")
        else:
            end = places.line_end(self._text, spot.end)
            self._splice(places.line_start(self._text, spot.begin), min(end + len(self._break), len(self._text)), "")

    def _empty(self, holder: Spot) -> None:
        nothing = "{}" if holder.is_mapping else "[]"
        lead = "" if holder.in_brackets or holder.start == holder.after == holder.begin else " "
        self._splice(holder.start if not lead else holder.after, holder.end, lead + nothing)

    def _splice(self, start: int, end: int, new: str) -> None:
        if self._put_off is not None:
            self._put_off.append((start, end, new))
            return
        self._text = self._text[:start] + new.replace("\n", self._break) + self._text[end:]


def _comment(words: str, indent: int) -> str:
    return "".join(f"{' ' * indent}# {line}".rstrip() + "\n" for line in words.splitlines())


def _shown(path: tuple[Key, ...]) -> str:
    return " > ".join(map(str, path))
