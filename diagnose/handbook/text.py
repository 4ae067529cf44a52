"""Words from YAML as Markdown and HTML in which no markup of theirs works: what was written is what is shown."""

import json
import re
from html import escape

from diagnose.characters import stripped

_NO_SIGNS = re.compile("[\ufffe\uffff]")  # no characters at all: XML refuses them
_LEFTWARD = "\u0590-\u08ff\u200f\ufb1d-\ufdff\ufe70-\ufefe\U00010800-\U00010fff\U0001e800-\U0001efff"
_LEFTWARD_RUN = re.compile(f"([{_LEFTWARD}](?:[\\s\\d.,'\"’”-]*[{_LEFTWARD}])*)")
_MARKS = re.compile(r"[&<>`*_{}\[\]\\|~^$]")  # they mean something to Markdown or HTML wherever they stand
_OPENING = re.compile(r"^(?:[-+#=:!?]|\d+(?=[.)]))")  # and these where they open a block
_NO_BRACKETS = {ord("<"): "\u2039", ord(">"): "\u203a"}
_ENTITY = re.compile(r"&(?=#?\w+;)")


def clean(text: str) -> str:
    """The text on one line, without control characters or marks that turn the direction of writing."""
    return _NO_SIGNS.sub("", stripped(" ".join(text.split()))).strip()


def plain(text: str) -> str:
    """The text as Markdown that shows it as it was written, at the start of a block or inside a line."""
    safe = _MARKS.sub(lambda mark: f"&#{ord(mark[0])};", clean(text))
    return _apart(_OPENING.sub(lambda mark: "".join(f"&#{ord(sign)};" for sign in mark[0]), safe))


def markup(text: str) -> str:
    """The text for HTML inside a quoted attribute or a title, where no tag can stand."""
    return escape(clean(text), quote=True)


def shown(text: str) -> str:
    """The text for HTML between tags."""
    return _apart(markup(text))


def _apart(safe: str) -> str:
    """Words written from right to left, each run set apart, so that they never turn the words and figures beside
    them. ``safe`` holds no markup: none is cut in two."""
    return _LEFTWARD_RUN.sub(r"<bdi>\1</bdi>", safe)


def head_title(text: str) -> str:
    """The text for a page's name in tabs and bookmarks. The theme undoes HTML's own escapes there, so that
    angle brackets give way to signs that look like them and mean nothing."""
    return _ENTITY.sub("\uff06", clean(text).translate(_NO_BRACKETS))


def front_matter(**values: object) -> str:
    """The head of a page; JSON is YAML that needs no quoting rules of its own."""
    lines = [f"{key}: {json.dumps(value, ensure_ascii=False)}" for key, value in values.items()]
    return "\n".join(["---", *lines, "---", ""])


def listed(words: list[str], last: str = "and") -> str:
    """Words in a row as a person says them: ``a, b and c``."""
    return f" {last} ".join(filter(None, [", ".join(words[:-1]), *words[-1:]]))


def sentence_start(text: str) -> str:
    """The first sentence, for where there is room for one only."""
    return re.split(r"(?<=[.!?])\s+(?=[A-Z0-9])", clean(text), maxsplit=1)[0]


def words_in(text: str) -> list[str]:
    """The words of a text in small letters."""
    return re.findall(r"[a-z]+", text.lower())
