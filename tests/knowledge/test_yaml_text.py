import pytest

from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.knowledge.limits import MOST_FILE_BYTES


def codes(data: bytes) -> list[str]:
    return [problem.code for problem in read_yaml(data, "kb/some.yaml")[1]]


def test_plain_values() -> None:
    document, problems = read_yaml(b"a: {b: [1, .5, true, null, no, 2026-01-01]}\n", "some.yaml")
    assert problems == []
    assert document is not None
    assert document.value == {"a": {"b": [1, 0.5, True, None, "no", "2026-01-01"]}}


def test_places_of_keys_and_values() -> None:
    document, _ = read_yaml("größe:\n  - first\n  - deep:   here\n".encode(), "some.yaml")
    assert document is not None
    assert str(document.key_place(("größe",))) == "some.yaml:1:1"
    assert str(document.value_place(("größe", 0))) == "some.yaml:2:5"
    assert str(document.key_place(("größe", 1, "deep"))) == "some.yaml:3:5"
    assert str(document.value_place(("größe", 1, "deep"))) == "some.yaml:3:13"
    assert str(document.value_place(("größe", 7))) == "some.yaml:2:3"


def test_first_of_two_equal_keys_wins_and_the_second_is_named() -> None:
    document, problems = read_yaml(b"a: {x: 1}\na: {y: 2}\n", "some.yaml")
    assert document is not None
    assert document.value == {"a": {"x": 1}}
    assert [str(problem.place) for problem in problems] == ["some.yaml:2:1"]


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"a: &x 1", "anchor"),
        (b"a: *x", "alias"),
        (b"a: !!str 1", "tag"),
        (b"a: ! 1", "tag"),
        (b"? [a]\n: 1", "non-text-key"),
        (b"1: a", "non-text-key"),
        (b"? \n: a", "non-text-key"),
        (b"a: 1\n---\nb: 1", "several-documents"),
        (b"a:\t1", "tab"),
        (b"a: \x07", "control-character"),
        (b"\xff\xfea\x00", "not-utf-8"),
        (b"", "empty-file"),
        (b"# only this", "empty-file"),
        (b"a: 1234567890123456", "huge-number"),
        (b"a: " + b"[" * 31 + b"]" * 31, "too-deep"),
        (b"[" * 100_000, "not-yaml"),
        (b"{a: " * 100_000, "too-deep"),
        (b"- " * 100_000, "too-deep"),
        (b"a: [", "not-yaml"),
        (b"a: " + b"x" * MOST_FILE_BYTES, "file-size"),
    ],
)
def test_refused(data: bytes, code: str) -> None:
    assert codes(data)[:1] == [code]


def test_every_tab_is_reported() -> None:
    assert codes(b"a:\t1\nb:\t2\n") == ["tab", "tab"]


def test_byte_order_mark_is_passed_over() -> None:
    document, problems = read_yaml(b"\xef\xbb\xbfa: 1\r\n", "some.yaml")
    assert problems == []
    assert document is not None
    assert document.value == {"a": 1}
