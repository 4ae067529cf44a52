"""Sheets of colour instruments, as many ways as they come, and what is said of broken ones."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.press.colour.columns import columns, role_in
from diagnose.press.colour.lab import Lab
from diagnose.press.colour.sheet import LARGEST, read_pairs
from diagnose.problems import PressloreError

PROOF, PRINT = Lab(52.5, 40, -20), Lab(58, 33.25, -18)
SHEETS = {
    "side by side": "name,proof L*,proof a*,proof b*,print L*,print a*,print b*\nx,52.5,40,-20,58,33.25,-18\n",
    "numbered": "Patch;L1;a1;b1;L2;a2;b2\nx;52,5;40;-20;58;33,25;-18\n",
    "standard and sample": "Std L,Std a,Std b,Smp L,Smp a,Smp b,dL,da,db,ID\n52.5,40,-20,58,33.25,-18,5,5,5,x\n",
    "role in the name": "Sample name\tL*\ta*\tb*\nx proof\t52,5\t40,0\t-20,0\nx print\t58,0\t33,25\t-18,0\n",
    "role in a column": "id,type,LAB_L,LAB_A,LAB_B\nx,Standard,52.5,40,-20\nx,Trial,58,33.25,-18\n",
    "first is the proof": "name,L,a,b\nx,52.5,40,-20\nx,58,33.25,-18\n",
    "below a preamble": "Report of the day\n\nInstrument;7\nname;L* (D65);a* (D65);b* (D65)\n"
    "x;52,5;40;-20\nx;58;33,25;−18\nEnd\n",
    "quoted decimal commas": 'name,L,a,b\nx,"52,5","40,0","-20"\nx,58,"33,25",-18\n',
    "with differences": "name,L*,a*,b*,ΔL*,Δa*,Delta b,dE\nx,52.5,40,-20,,,,\nx,58,33.25,-18,5,-7,2,8\n",
    "a number and a name": "SAMPLE_ID\tSAMPLE_NAME\tLAB_L\tLAB_A\tLAB_B\n"
    "1\tx proof\t52.5\t40\t-20\n2\tx\t58\t33.25\t-18\n",
    "held apart by blanks": "Report of the day\nSAMPLE_NAME LAB_L LAB_A LAB_B\nBEGIN\n"
    '"x proof" 52.5 40 -20\nx 58 33.25 -18\nEND\n',
    "print before proof": "name,L,a,b\nx print,58,33.25,-18\nx proof,52.5,40,-20\n",
}


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le"])
@pytest.mark.parametrize("sheet", SHEETS.values(), ids=list(SHEETS))
def test_one_pair_however_it_is_written(sheet: str, encoding: str) -> None:
    (pair,) = read_pairs(sheet.encode(encoding), "measured.csv")
    assert (pair.name, pair.proof, pair.print_) == ("x", PROOF, PRINT)


def test_line_ends_and_letters_of_old_programs() -> None:
    sheet = "name;L;a;b\r\nfête red proof;52,5;40;-20\r\nFête red;58;33,25;-18\r\n"
    (pair,) = read_pairs(sheet.encode("cp1252"), "measured.csv")
    assert (pair.name, pair.line) == ("Fête red", 3)


def test_several_prints_of_one_proof_and_several_names() -> None:
    sheet = "name,L,a,b\nred,50,40,20\nblue,30,0,-40\nred,51,40,20\nred,52,40,20\nblue,33,0,-38\n"
    pairs = read_pairs(sheet.encode(), "measured.csv")
    assert [(pair.name, pair.print_.lightness, pair.line) for pair in pairs] == [
        ("red", 51, 4), ("red", 52, 5), ("blue", 33, 6),
    ]  # fmt: skip


def test_every_line_against_one_proof() -> None:
    pairs = read_pairs(b"L,a,b\n50,40,20\n51,40,20\n", "measured.csv", PROOF)
    assert [pair.proof for pair in pairs] == [PROOF, PROOF]
    assert [pair.name for pair in pairs] == ["line 2", "line 3"]


@pytest.mark.parametrize(
    ("sheet", "says"),
    [
        ("", "measured.csv: the file is empty"),
        ("name,x,y\na,1,2\n", "measured.csv:1:1: no columns for a colour are named"),
        ("name,L,a,b\nx,52,a lot,20\n", "measured.csv:2:3: 'a lot' is not a number - expected a number for a"),
        ("name,L,a,b\nx,52,,20\n", "measured.csv:2:3: nothing stands here - expected a number for a"),
        ("name,L,a,b\nx,52,4\n", "measured.csv:2:4: nothing stands here - expected a number for b"),
        ("name,L,a,b\nx,520,4,1\n", "measured.csv:2:2: .* L runs from 0"),
        ("name,L,a,b\nx,nan,4,1\n", "measured.csv:2:2: .* is not a colour"),
        ("name,L,a,b\nx,52,1,40,2,20,3\n", "measured.csv:2:5: 7 cells under 4 titles .* semicolon"),
        ("name,L,a,b\nx print,52,1,40\n", "measured.csv:2:1: “x” has no proof"),
        ("name,L,a,b\nx,52,1,40\ny,52,1,40\n", "no print stands beside a proof"),
        ("name,L,a,b\n", "no print stands beside a proof"),
    ],
)
def test_what_is_broken_is_named_with_line_and_column(sheet: str, says: str) -> None:
    with pytest.raises(PressloreError) as error:
        read_pairs(sheet.encode(), "measured.csv")
    assert re.search(says, str(error.value))


def test_all_that_is_broken_is_named_at_once() -> None:
    with pytest.raises(PressloreError) as error:
        read_pairs(b"name,L,a,b\nx,?,1,2\nx,50,!,2\n", "measured.csv")
    assert [problem.place.line for problem in error.value.problems] == [2, 3]


@pytest.mark.parametrize("content", [b"\x89PNG\r\n\x1a\n\x00\x00L,a,b\x00", b"L,a,b\n" + b"1" * LARGEST])
def test_what_is_no_sheet_is_refused(content: bytes) -> None:
    with pytest.raises(PressloreError):
        read_pairs(content, "measured.csv")


@settings(max_examples=80, deadline=None)
@given(st.binary(max_size=200) | st.text('Lab,;\t\n"1.0- px', max_size=80).map(lambda text: f"L,a,b\n{text}".encode()))
def test_whatever_stands_in_a_file_it_is_read_or_refused(content: bytes) -> None:
    try:
        pairs = read_pairs(content, "measured.csv")
    except PressloreError:
        return
    assert pairs


@pytest.mark.parametrize("titles", [["name", "dL", "da", "db"], ["L", "a"], ["lab", "label"], ["Length", "area", "b"]])
def test_titles_that_name_no_colour(titles: list[str]) -> None:
    assert columns(titles) is None


@pytest.mark.parametrize(
    ("text", "role", "name"),
    [
        ("fête red, proof", "proof", "fête red"),
        ("Print_3 red", "print", "3 red"),
        ("fingerprint red", "", "fingerprint red"),
        ("proof", "proof", ""),
    ],
)
def test_roles_in_names(text: str, role: str, name: str) -> None:
    assert role_in(text) == (role, name)
