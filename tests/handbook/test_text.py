"""Whatever stands in the YAML, it is shown as it was written and does nothing."""

import html
import sys
import unicodedata
from collections.abc import Callable

import pytest
import yaml
from hypothesis import example, given
from hypothesis import strategies as st
from markdown import markdown

from diagnose.handbook.text import clean, front_matter, head_title, listed, markup, plain, sentence_start, shown
from tests.handbook.reading import read

EXTENSIONS = ["attr_list", "md_in_html", "sane_lists", "toc", "tables", "fenced_code"]
HOSTILE = [
    "<script>alert(1)</script>",
    "</title><script>alert(1)</script>",
    "&lt;script&gt;alert(1)&lt;/script&gt;",
    "<img src=x onerror=alert(1)>",
    "[click](javascript:alert(1))",
    "![x](https://example.org/x.png)",
    "<javascript:alert(1)>",
    "[ref]: https://example.org",
    "# heading",
    "- list",
    "1. list",
    "    code",
    "> quote",
    "`code` ``more``",
    "*a* _b_ **c** ~~d~~ ^e^ $f$",
    "| a | b |",
    "text {: #id onclick=alert(1) }",
    "text { onclick=alert(1) }",
    "{{ config }} {% include 'x' %}",
    "[TOC]",
    "--8<-- 'x'",
    '!!! note "x"',
    "???+ x",
    "---",
    "===",
    "\\<b>",
    "\x02amp\x03",
    "wzxhzdk:0 klzzwxh:0",
    ":material-x: :smile:",
    "a\u202eb\u2028c",
    '" onmouseover="alert(1)',
    "' onmouseover='alert(1)",
]
SIGNS = st.text(alphabet=st.sampled_from(list("<>&;\"'`*_{}[]()#+-.!|~:^=$\\/ \n\tab1ltscript\x02\x03é–")), max_size=60)


def one_line(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("frame", ["{}", "Before {} after", "- {}", "1. **{}**", "# {}", "[{}](page.md)"])
def test_markup_shows_as_text(text: str, frame: str) -> None:
    page = read(markdown(frame.format(plain(text)), extensions=EXTENSIONS))
    bare = read(markdown(frame.format("x"), extensions=EXTENSIONS))
    assert page.tags == bare.tags
    assert page.attributes == bare.attributes
    assert one_line(clean(text)) in page.seen


@given(SIGNS)
@example("1.")
@example("a\\")
@example("&#60;b&#62;")
def test_any_text_shows_as_it_was_written(text: str) -> None:
    page = read(markdown(f"- {plain(text)}\n", extensions=EXTENSIONS))
    assert set(page.tags) <= {"ul", "li"}
    assert page.seen == one_line(clean(text))


LEFTWARD = "\u05e9\u05dc\u05d5\u05dd"
ARABIC = "\u0645\u0643\u0628\u0633"


@pytest.mark.parametrize("word", [LEFTWARD, ARABIC, "\u0663\u0662"])
@pytest.mark.parametrize("frame", ["{}", "Before {} after", "- {}", "1. **{}**", "# {}", "[{}](page.md)"])
def test_words_written_from_right_to_left_stand_apart(word: str, frame: str) -> None:
    made = markdown(frame.format(plain(f"{word}: 12 pieces")), extensions=EXTENSIONS)
    assert f"<bdi>{word}</bdi>: 12 pieces" in made
    assert shown(f"12 {word} & 3") == f"12 <bdi>{word}</bdi> &amp; 3"
    assert markup(word) == word


def test_what_is_written_from_right_to_left_is_one_run_with_its_own_figures() -> None:
    assert shown(f"{LEFTWARD} 12 {LEFTWARD}, {LEFTWARD} (3)") == (
        f"<bdi>{LEFTWARD} 12 {LEFTWARD}, {LEFTWARD}</bdi> (3)"
    )


def test_every_letter_that_is_written_from_right_to_left_is_known() -> None:
    wrong = [
        f"U+{code:04X}"
        for code in range(sys.maxunicode + 1)
        if clean(chr(code))
        and (unicodedata.bidirectional(chr(code)) in ("R", "AL", "AN")) != ("<bdi>" in shown(chr(code)))
        if unicodedata.category(chr(code)) not in ("Cn", "Mn", "Sm", "So", "Po", "Ps", "Pe", "Sc", "Sk", "Nd")
    ]
    assert wrong == []


@pytest.mark.parametrize(
    "sign", ["\x1b", "\x9b", "\u202e", "\u2066", "\u200f", "\u200b", "\ufeff", "\ud800", "\U000e0041"]
)
@pytest.mark.parametrize("make", [plain, markup, shown, head_title])
def test_nothing_that_acts_on_its_surroundings_reaches_a_page(sign: str, make: Callable[[str], str]) -> None:
    assert make(f"quay{sign}side") == "quayside"


@given(SIGNS)
def test_attributes_cannot_be_left(text: str) -> None:
    page = read(f'<img alt="{markup(text)}">')
    assert page.attributes == ["alt"]


@given(SIGNS)
def test_a_title_cannot_leave_the_title(text: str) -> None:
    """Inside a title of HTML entities are resolved, and so they must mean nothing, once and twice over."""
    for title in (head_title(text), html.unescape(head_title(text))):
        assert "<" not in title
        assert ">" not in title


@given(SIGNS)
def test_the_head_of_a_page_is_yaml(text: str) -> None:
    head = front_matter(title=text, hide=[text])
    assert yaml.safe_load(head.split("---\n")[1]) == {"title": text, "hide": [text]}


def test_plain_words_stay_as_they_are() -> None:
    text = "Ten degrees short (18 °F) halves what crosses over; that is why – mostly."
    assert plain(text) == text


def test_a_first_sentence() -> None:
    assert sentence_start("Dark all over. Edges are sharp.") == "Dark all over."
    assert sentence_start("About 8.5 % of it. More") == "About 8.5 % of it."


def test_a_row_of_words() -> None:
    assert [listed([]), listed(["a"]), listed(["a", "b", "c"])] == ["", "a", "a, b and c"]
