"""``rules diff``, ``rules share`` and ``rules take``: from one shop's folder over another's."""

import json
from pathlib import Path

import pytest

from diagnose.casebook.store import open_book
from diagnose.cli import bundles, exits
from diagnose.dialogue.moves import Answered, Cured, HandedOver, Pressed, Saw
from tests.casebook.quay import RULES, lay_out
from tests.casebook.some import a_case
from tests.cli.playing import PLAIN, play

DOOR = [
    Pressed("tea-towel-65-35"),
    Saw(("faint-colour",)),
    Answered("look-at-the-door", "open"),
    Cured("shut-the-door"),
]


@pytest.fixture
def quay(tmp_path: Path) -> Path:
    return lay_out(tmp_path / "quay")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    with open_book(tmp_path / "book.sqlite3") as opened:
        cases = [a_case(number, DOOR) for number in range(5)]
        opened.add([*cases, a_case(9, [Saw(("faint-colour",)), HandedOver()])])
    return tmp_path / "book.sqlite3"


@pytest.fixture
def bundle(quay: Path, tmp_path: Path) -> Path:
    out = tmp_path / "quay.zip"
    assert play(["rules", "share", "--shop", str(quay), "-o", str(out)])[0] == exits.GOOD
    return out


@pytest.fixture
def pier(tmp_path: Path) -> Path:
    (tmp_path / "pier").mkdir()
    (tmp_path / "pier" / "shop.yaml").write_text("name: The pier\n", encoding="utf-8")
    return tmp_path / "pier"


def test_what_a_shops_rules_do_to_the_cases(quay: Path, book: Path) -> None:
    code, out, err = play(["rules", "diff", "shipped", str(quay), "--book", str(book)])
    assert (code, err) == (exits.GOOD, "")
    assert "Rules: 1 added, 0 changed, 0 removed\n+ draughty-door → faint-colour: very likely, 88 %\n" in out
    assert "shut-the-door  (Faint colour; 5 cases)" in out
    assert "past cases          5       0       0\n" in out
    assert "left out, as no known fix is named to have cured them: 1." in out


def test_the_same_as_data(quay: Path, book: Path) -> None:
    code, out, _ = play(["rules", "diff", str(quay), "shipped", "--book", str(book), "--json"])
    told = json.loads(out)
    assert code == exits.GOOD
    assert [(rule["kind"], rule["cause"], rule["after"]) for rule in told["rules"]] == [
        ("removed", "draughty-door", None)
    ]
    assert told["past_cases"]["totals"] == {"sooner": 0, "later": 5, "same": 0, "left_out": 1}
    assert all(case["minutes_after"] is None for case in told["past_cases"]["cases"])


def test_a_folder_against_itself(quay: Path) -> None:
    out = play(["rules", "diff", str(quay), str(quay)], environment={**PLAIN, "COLUMNS": "40"})[1]
    assert out.startswith("Rules: 0 added, 0 changed, 0 removed\n\n")
    assert max(map(len, out.splitlines())) <= 40


def test_a_folder_that_is_not_there() -> None:
    code, _, err = play(["rules", "diff", "shipped", "nowhere"])
    assert code == exits.USAGE
    assert "nowhere: expected a shop's folder, or the word shipped" in err


def test_sharing_says_what_goes_and_what_stays(quay: Path, tmp_path: Path) -> None:
    trial = (
        "adds-to: haze\nstatus: trial\ndate: 2026-11-20\nrules:\n"
        "  - {cause: draughty-door, brings: rarely, why: The wind carries dust., basis: common practice}\n"
    )
    code, out, err = play(["rules", "share", "--shop", str(lay_out(quay, rules__haze=trial)), "-o", "out.zip"])
    assert (code, err) == (exits.GOOD, "")
    assert out == (
        "1 settled rule written to out.zip:\n- rules/faint-colour.yaml\n- kb/entries.yaml\n1 rule left out: on trial.\n"
    )


def test_a_bundle_that_is_there_already_is_left_alone(quay: Path, bundle: Path) -> None:
    before = bundle.read_bytes()
    code, _, err = play(["rules", "share", "--shop", str(quay), "-o", str(bundle)])
    assert (code, bundle.read_bytes()) == (exits.PROBLEMS, before)
    assert "name another, or add --force" in err
    assert play(["rules", "share", "--shop", str(quay), "-o", str(bundle), "--force"])[0] == exits.GOOD
    assert bundle.read_bytes() == before


def test_without_a_shop_there_is_nothing_to_share() -> None:
    code, _, err = play(["rules", "share", "-o", "x.zip"])
    assert code == exits.PROBLEMS
    assert "there is no shop folder here: name it with --shop" in err


def test_taking_is_looked_at_first_and_then_done(bundle: Path, pier: Path) -> None:
    take = ["rules", "take", str(bundle), "--shop", str(pier)]
    code, out, _ = play([*take, "--dry-run"])
    assert code == exits.GOOD
    assert out.endswith("Nothing was written.\n")
    code, _, err = play(take)
    assert code == exits.PROBLEMS
    assert err == "Nothing was written: add --yes to take it, or --dry-run to look only.\n"
    assert [path.name for path in pier.iterdir()] == ["shop.yaml"]
    code, out, _ = play([*take, "--yes"])
    assert code == exits.GOOD
    assert "+ draughty-door → faint-colour: very likely, 88 %\n" in out
    assert play(["rules", "check", str(pier)])[0] == exits.GOOD
    assert "was taken already" in play(take)[1].replace("\n", " ")


@pytest.mark.parametrize(("typed", "code"), [("y", exits.GOOD), ("n", exits.PROBLEMS)])
def test_a_person_is_asked(bundle: Path, pier: Path, typed: str, code: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(bundles, "both_terminals", lambda: True)
    assert play(["rules", "take", str(bundle), "--shop", str(pier)], [typed])[0] == code
    assert (pier / "rules").exists() == (typed == "y")


def test_a_bundle_that_clashes_or_is_damaged_is_refused(bundle: Path, quay: Path, pier: Path) -> None:
    code, out, err = play(["rules", "take", str(bundle), "--shop", str(quay), "--yes"])
    assert (code, out) == (exits.PROBLEMS, "")
    assert err.count(" already - keep yours") == 5
    bundle.write_bytes(bundle.read_bytes()[:-9])
    code, out, err = play(["rules", "take", str(bundle), "--shop", str(pier), "--yes"])
    assert (code, out) == (exits.PROBLEMS, "")
    assert "not taken, it is cut off or damaged" in err
    assert (quay / "rules" / "faint-colour.yaml").read_text(encoding="utf-8") == RULES
