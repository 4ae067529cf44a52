"""``rules diff``, ``rules share`` and ``rules take``: from one shop's folder over another's."""

import json
from functools import cache
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from jsonschema import Draft202012Validator

from diagnose.casebook.sharing.unpacking import read_bundle
from diagnose.casebook.store.casebook import open_book
from diagnose.cli import exits
from diagnose.cli.rules import bundles
from diagnose.dialogue.moves import Answered, Cured, HandedOver, Move, Pressed, Saw
from tests.casebook.quay import RULES, lay_out
from tests.casebook.some import a_case
from tests.cli.playing import PLAIN, play

SCHEMA = json.loads(files("diagnose.casebook").joinpath("schema", "taking.json").read_text(encoding="utf-8"))
DOOR: list[Move] = [
    Pressed("tea-towel-65-35"),
    Saw(("faint-colour",)),
    Answered("look-at-the-door", "open"),
    Cured("shut-the-door"),
]


ID = '{"shop": "bdfg-hjkm-nprs"}\n'


@pytest.fixture
def quay(tmp_path: Path) -> Path:
    return lay_out(tmp_path / "quay")


@cache
def shared(rules: str) -> bytes:
    """The bundle of the quay with these rules: the same bytes at every share, so that it is shared once."""
    with TemporaryDirectory() as folder:
        lay_out(Path(folder) / "quay", **{"rules__faint-colour": rules})
        (Path(folder) / "quay" / "sharing.json").write_text(ID, encoding="utf-8")
        out = Path(folder) / "quay.zip"
        assert play(["rules", "share", "--shop", str(Path(folder) / "quay"), "-o", str(out)])[0] == exits.GOOD
        return out.read_bytes()


@pytest.fixture
def book(tmp_path: Path) -> Path:
    with open_book(tmp_path / "book.sqlite3") as opened:
        cases = [a_case(number, DOOR) for number in range(5)]
        opened.add([*cases, a_case(9, [Saw(("faint-colour",)), HandedOver()])])
    return tmp_path / "book.sqlite3"


@pytest.fixture
def bundle(tmp_path: Path) -> Path:
    (tmp_path / "quay.zip").write_bytes(shared(RULES))
    return tmp_path / "quay.zip"


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
    assert out.startswith(
        "1 settled rule written to out.zip:\n- rules/faint-colour.yaml\n- kb/entries.yaml\n1 rule left out: on trial.\n"
        f"Digest, to be read out to whoever takes it:\n  {read_bundle(Path('out.zip')).spoken}\n"
        "It goes by “The harbour workshop”, id "
    )


def test_a_bundle_that_is_there_already_is_left_alone(quay: Path, bundle: Path) -> None:
    before = bundle.read_bytes()
    (quay / "sharing.json").write_text(ID, encoding="utf-8")
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
    assert "+ draughty-door → faint-colour: very likely, 88 % (on trial)\n" in out
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


@pytest.fixture
def newer(tmp_path: Path) -> Path:
    """A newer bundle of the same shop, whose rule is not so sure any more."""
    (tmp_path / "newer.zip").write_bytes(shared(RULES.replace("brings: very likely", "brings: likely")))
    return tmp_path / "newer.zip"


def taken_into(pier: Path, bundle: Path, *more: str) -> tuple[int, str, str]:
    return play(["rules", "take", str(bundle), "--shop", str(pier), *more])


def test_the_digest_is_seen_before_anything_is_taken_and_others_are_refused(bundle: Path, pier: Path) -> None:
    spoken = read_bundle(bundle).spoken
    out = taken_into(pier, bundle, "--dry-run")[1]
    assert out.index(f"\n  {spoken}\n") < out.index("draughty-door")
    assert "It says it is from “The harbour workshop”, id " in out
    other = spoken[:-1] + str((int(spoken[-1]) + 1) % 10)
    code, out, err = taken_into(pier, bundle, "--yes", "--digest", other)
    assert (code, out) == (exits.PROBLEMS, "")
    assert f"its digest is {spoken}, another than the one given. Nothing was written" in err.replace("\n", " ")
    assert [path.name for path in pier.iterdir()] == ["shop.yaml"]
    for said in ("4821", "x", spoken[:-1]):
        assert "expected five groups of four digits" in taken_into(pier, bundle, "--yes", "--digest", said)[2]
    assert taken_into(pier, bundle, "--yes", "--digest", spoken.replace("-", " "))[0] == exits.GOOD


def test_whose_it_is_shows_everywhere(bundle: Path, pier: Path) -> None:
    taken_into(pier, bundle, "--yes")
    whose = f"the bundle {read_bundle(bundle).spoken} of “The harbour workshop”"
    at = ["--shop", str(pier)]
    for words in (
        ["why", "draughty-door", "faint-colour"],
        ["rules", "trials"],
        ["fixes", "shut-the-door"],
        ["checks", "look-at-the-door"],
        ["causes", "draughty-door"],
        ["defects", "faint-colour"],
    ):
        out = " ".join(play([*words, *at])[1].split())
        assert whose in out, words
        assert "this shop" not in out, words
    assert json.loads(play(["shop", "show", "--json", *at])[1])["bundles"] == [whose]
    assert f"In force beside its own: {whose}" in " ".join(play(["shop", "show", *at])[1].split())
    trials = json.loads(play(["rules", "trials", "--json", *at])[1])
    assert [(one["kind"], one.get("cause") or one["id"], one["origin"]) for one in trials] == [
        ("rule", "draughty-door", whose),
        ("check", "look-at-the-door", whose),
        ("fix", "shut-the-door", whose),
    ]
    seen = ["diagnose", "--saw", "faint-colour", "--answer", "look-at-the-door=open", "--json"]
    told = json.loads(play([*seen, *at])[1])
    assert {cause["origin"] for cause in told["causes"] if cause["id"] == "draughty-door"} == {whose}


def test_what_is_done_is_marked_on_every_screen_until_it_is_settled(bundle: Path, pier: Path, book: Path) -> None:
    taken_into(pier, bundle, "--yes")
    at = ["--shop", str(pier)]
    mark = f"[the bundle {read_bundle(bundle).spoken} of “The harbour workshop”, on trial]"
    screens = (["fixes"], ["fixes", "shut-the-door"], ["checks"], ["checks", "look-at-the-door"])
    for words in (*screens, ["causes", "draughty-door"]):
        assert mark in " ".join(play([*words, *at])[1].split()), words
    asked = ["diagnose", "--saw", "faint-colour", "--answer", "look-at-the-door=open", "--json"]
    assert f"Look at the door {mark}: Open" in play([*asked, *at])[1]
    for step in ("shut-the-door", "look-at-the-door"):
        code, out, _ = play(["rules", "promote", step, *at, "--book", str(book)])
        assert (code, "the step is settled" in out) == (exits.GOOD, True), step
    for words in screens:
        assert mark not in " ".join(play([*words, *at])[1].split()), words
    left = json.loads(play(["rules", "trials", "--json", *at])[1])
    assert [one["kind"] for one in left] == ["rule"]
    assert play(["rules", "check", str(pier)])[0] == exits.GOOD


def test_a_taken_rule_is_settled_by_the_shops_own_cases(bundle: Path, pier: Path, book: Path) -> None:
    taken_into(pier, bundle, "--yes")
    promote = ["rules", "promote", "faint-colour", "draughty-door", "--shop", str(pier), "--book", str(book)]
    code, out, _ = play(promote)
    assert (code, "5 confirmed cases noted: the rule is settled" in out) == (exits.GOOD, True)
    left = json.loads(play(["rules", "trials", "--shop", str(pier), "--json"])[1])
    assert [one["kind"] for one in left] == ["check", "fix"]
    assert play(["rules", "check", str(pier)])[0] == exits.GOOD


def test_an_earlier_bundle_is_replaced_only_where_somebody_says_so(
    bundle: Path, newer: Path, pier: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    taken_into(pier, bundle, "--yes")
    was, now = read_bundle(bundle).spoken, read_bundle(newer).spoken
    code, out, err = taken_into(pier, newer, "--yes")
    assert code == exits.PROBLEMS
    assert "it would take the place of an earlier bundle" in err
    assert (f"in force now: {was}" in out, f"then: {now}" in " ".join(out.split())) == (True, True)
    assert "very likely" in play(["why", "draughty-door", "faint-colour", "--shop", str(pier)])[1]
    code, out, _ = taken_into(pier, newer, "--yes", "--digest", now)
    assert (code, "very likely, 88 % → likely" in out) == (exits.GOOD, True)
    assert play(["rules", "take", "--undo", "--shop", str(pier)])[0] == exits.GOOD
    assert "very likely" in play(["why", "draughty-door", "faint-colour", "--shop", str(pier)])[1]
    monkeypatch.setattr(bundles, "both_terminals", lambda: True)
    code, out, _ = play(["rules", "take", str(newer), "--shop", str(pier)], ["y"])
    assert (code, "put it in the place of the earlier one" in out) == (exits.GOOD, True)


def test_taking_as_data(bundle: Path, newer: Path, pier: Path) -> None:
    def told(path: Path, *more: str, code: int = exits.GOOD) -> dict[str, object]:
        got, out, _ = taken_into(pier, path, "--json", *more)
        assert got == code
        plain: dict[str, object] = json.loads(out)
        Draft202012Validator(SCHEMA).validate(plain)
        return plain

    Draft202012Validator.check_schema(SCHEMA)
    seen = told(bundle, "--dry-run")
    assert (seen["taken"], seen["replaces"], [path.name for path in pier.iterdir()]) == (False, None, ["shop.yaml"])
    assert told(bundle)["taken"] is False
    assert told(bundle, "--yes")["taken"] is True
    assert told(bundle, "--yes")["there_already"] is True
    asked = told(newer, "--yes", code=exits.PROBLEMS)
    assert (asked["taken"], asked["replaces"]) == (False, seen["bundle"] and _said(seen["bundle"]))
    assert told(newer, "--yes", "--digest", read_bundle(newer).spoken)["taken"] is True
    assert json.loads(play(["schema", "taking"])[1]) == SCHEMA


def _said(bundle: object) -> dict[str, object]:
    assert isinstance(bundle, dict)
    return {key: value for key, value in bundle.items() if key != "path"}


def test_a_shop_keeps_its_id_and_may_go_by_another_name(quay: Path, tmp_path: Path) -> None:
    for name in ("a", "b"):
        out = tmp_path / f"{name}.zip"
        assert play(["rules", "share", "--shop", str(quay), "-o", str(out), "--as", f"Shop {name}"])[0] == exits.GOOD
    one, other = (read_bundle(tmp_path / f"{name}.zip").sender for name in ("a", "b"))
    assert (one.name, other.name, one.shop) == ("Shop a", "Shop b", other.shop)
    assert one.shop == json.loads((quay / "sharing.json").read_text(encoding="utf-8"))["shop"]
    code, _, err = play(["rules", "share", "--shop", str(quay), "-o", "x.zip", "--as", "this\x1b[2J shop"])
    assert (code, "--as: " in err, "\x1b" in err) == (exits.USAGE, True, False)


def test_what_is_not_a_bundle_is_not_written_over(quay: Path, tmp_path: Path) -> None:
    book = tmp_path / "casebook.sqlite3"
    book.write_bytes(b"SQLite format 3\0")
    code, _, err = play(["rules", "share", "--shop", str(quay), "-o", str(book), "--force"])
    assert (code, book.read_bytes()) == (exits.PROBLEMS, b"SQLite format 3\0")
    assert "something else is kept here" in err


@pytest.mark.parametrize("words", [[], ["x.zip", "--undo"], ["--undo", "--dry-run"], ["--undo", "--json"]])
def test_taking_is_called_one_way_or_the_other(pier: Path, words: list[str]) -> None:
    assert play(["rules", "take", *words, "--shop", str(pier)])[0] == exits.USAGE
