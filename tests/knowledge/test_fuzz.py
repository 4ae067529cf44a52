"""Whatever stands in a file: a value or problems, never an exception."""

import tempfile
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from diagnose.knowledge.documents.yaml_text import read_yaml
from diagnose.knowledge.loading import inspect

SMALLEST = Path(__file__).parent / "valid" / "smallest"
NAMES = ("kb/all.yaml", "rules/faint-colour.yaml")
CONTENT = {name: (SMALLEST / name).read_bytes() for name in NAMES}
PIECES = b"null true no [] {} 5 -1 ' : - &a *a !!int {a:b} [x,y] ? --- 1e999 '<x' 80..50 >= ... % |".split()
WORDS = st.sampled_from([*PIECES, b": ", b"- ", b"\n", b"  ", b"\t", b"\xff", b"---\n", b"{a: b}"])
RARE = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def look_at(files: dict[str, bytes]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        for name, data in files.items():
            path = Path(folder) / name
            path.parent.mkdir(exist_ok=True)
            path.write_bytes(data)
        knowledge, problems = inspect(Path(folder))
    assert knowledge is not None or problems
    assert all(problem.code and problem.wrong and str(problem) for problem in problems)


@given(st.binary(max_size=300))
@settings(max_examples=300, deadline=None)
def test_any_bytes(data: bytes) -> None:
    document, problems = read_yaml(data, "some.yaml")
    assert document is not None or problems


@given(st.text(alphabet="ab:-?[]{}&*!|>'\"#%@,\n 01.~", max_size=60))
@settings(max_examples=300, deadline=None)
def test_any_yaml_like_text(text: str) -> None:
    document, problems = read_yaml(text.encode(), "some.yaml")
    assert document is not None or problems


@given(st.sampled_from(NAMES), st.binary(max_size=100))
@RARE
def test_any_bytes_as_a_file(name: str, data: bytes) -> None:
    look_at({**CONTENT, name: data})


@given(st.sampled_from(NAMES), st.integers(0, 5000), st.integers(0, 30), WORDS)
@RARE
def test_spoilt_files(name: str, start: int, length: int, word: bytes) -> None:
    data = CONTENT[name]
    start %= len(data)
    look_at({**CONTENT, name: data[:start] + word + data[start + length :]})


@given(st.sampled_from(NAMES), st.integers(0, 300), st.data())
@RARE
def test_a_value_swapped_for_another(name: str, number: int, data: st.DataObject) -> None:
    lines = CONTENT[name].splitlines(keepends=True)
    number %= len(lines)
    key, colon, _ = lines[number].partition(b":")
    lines[number] = key + colon + b" " + data.draw(WORDS) + b"\n"
    look_at({**CONTENT, name: b"".join(lines)})


@given(st.sampled_from(NAMES), st.sets(st.integers(0, 150), max_size=4))
@RARE
def test_lines_left_out(name: str, gone: set[int]) -> None:
    lines = CONTENT[name].splitlines(keepends=True)
    look_at({**CONTENT, name: b"".join(line for number, line in enumerate(lines) if number not in gone)})
