"""``presslore rules new``, ``trials`` and ``promote``: by flags, from a draft, by a person; and what is then marked."""

import json
import shutil
import sys
from pathlib import Path

import pexpect
import pytest

from diagnose.cli import exits
from diagnose.cli.shop import shelf
from tests.cli.playing import AT_ROOT, CTRL_C, play

DRAFT = Path(__file__).parents[2] / "cases" / "harbour" / "cold-towels.yaml"
CAUSE = "piece-comes-cold-from-store"
NEW = ["rules", "new", "--shop", "shop"]


@pytest.fixture
def shop(monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop's folder beside where the command is called; what it holds is in force."""
    folder = Path("shop").absolute()
    (folder / "rules").mkdir(parents=True)
    monkeypatch.setenv(shelf.SHOP_VARIABLE, str(folder))
    return folder


@pytest.fixture(scope="session")
def prepared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop's folder with the rule kept in it."""
    folder = tmp_path_factory.mktemp("kept") / "shop"
    (folder / "rules").mkdir(parents=True)
    code, out, err = play(["rules", "new", "--shop", str(folder), "--draft", str(DRAFT), "--yes"])
    assert (code, err) == (exits.GOOD, "")
    assert "Kept. The rule is on trial" in out
    return folder


@pytest.fixture
def kept(shop: Path, prepared: Path) -> Path:
    return Path(shutil.copytree(prepared, shop, dirs_exist_ok=True))


def files(shop: Path) -> list[str]:
    return sorted(path.relative_to(shop).as_posix() for path in shop.rglob("*") if path.is_file())


def test_a_draft_is_kept(kept: Path) -> None:
    assert files(kept) == [f"kb/{CAUSE}.yaml", "rules/faint-colour.yaml"]
    assert play(["rules", "check", "shop"])[0] == exits.GOOD


def test_a_dry_run_writes_nothing(shop: Path) -> None:
    code, out, err = play([*NEW, "--draft", str(DRAFT), "--dry-run", "--yes"])
    assert (code, err, files(shop)) == (exits.GOOD, "", [])
    assert "shop/rules/faint-colour.yaml (new)" in out
    assert "- by: {piece-comes-cold-from-store: " in out
    assert "Nothing was written." in out


def test_flags_lie_over_the_draft(shop: Path) -> None:
    code, out, _ = play([*NEW, "--draft", str(DRAFT), "--brings", "0.8", "--basis", "common practice", "--json"])
    told = json.loads(out)
    assert (code, told["kept"], files(shop)) == (exits.GOOD, False, [])
    assert (told["defect"], told["cause"]) == ("faint-colour", CAUSE)
    assert ": 0.8}" in told["files"][0]["text"]
    assert [set(change) for change in told["changes"]] == [{"defect", "story", "before", "after"}]
    assert len(told["nearest"]) == 5


def test_everything_missing_is_named_at_once_and_nothing_is_asked(shop: Path) -> None:
    code, out, err = play([*NEW, "--defect", "palle colours", "--new-cause", "Cold"], ["y"])
    assert (code, out) == (exits.USAGE, "")
    for name in ("family", "about", "turns-up", "brings", "why", "basis", "fix", "story"):
        assert f"--{name} " in err
    assert "--write-draft draft.yaml" in err


@pytest.mark.parametrize(
    ("flags", "words"),
    [
        (["--defect", "wrongish-x"], "no defect has the id"),
        (["--item", "tee-towl-polyster-x"], "no item has the id"),
        (["--never", "damp-itm"], "did you mean damp-item"),
        (["--never", CAUSE], "no never has the id"),
        (["--not-seen", "faint-colour"], "cannot be seen and not be there"),
        (["--when", "item.family=ceramic"], "the worked case does not meet this"),
        (["--new-cause", "The transfer paper is damp"], "say --cause damp-paper"),
    ],
)
def test_what_cannot_be_taken(shop: Path, flags: list[str], words: str) -> None:
    code, out, err = play([*NEW, "--draft", str(DRAFT), "--yes", *flags])
    assert (code, out, files(shop)) == (exits.USAGE, "", [])
    assert words in " ".join(err.split())


def test_a_rule_that_is_there_already(shop: Path) -> None:
    known = ["--defect", "blotches", "--cause", "damp-item", "--brings", "likely", "--why", "So."]
    code, _, err = play([*NEW, *known, "--basis", "common practice", "--story", "So it was.", "--yes"])
    assert code == exits.USAGE
    assert "says that already" in " ".join(err.split())


def test_a_worked_case_that_does_not_hold(shop: Path) -> None:
    code, out, err = play([*NEW, "--draft", str(DRAFT), "--answer", "new-check=quiet", "--yes"])
    assert (code, out, files(shop)) == (exits.PROBLEMS, "", [])
    assert err.startswith("shop/rules/faint-colour.yaml:")
    assert f"expected {CAUSE} first" in err
    assert err.endswith("Nothing was written.\n")


def test_without_a_shop_folder() -> None:
    assert play(["rules", "new", "--defect", "pale"])[0] == exits.PROBLEMS
    assert play([*NEW, "--defect", "pale"])[0] != exits.GOOD


def test_an_empty_draft(shop: Path) -> None:
    code, out, _ = play(["rules", "new", "--write-draft", "d.yaml"])
    assert (code, Path("d.yaml").is_file()) == (exits.GOOD, True)
    assert "presslore rules new --draft d.yaml --dry-run" in out
    assert play(["rules", "new", "--write-draft", "d.yaml"])[0] == exits.PROBLEMS


def test_a_person_keeps_it(shop: Path) -> None:
    code, out, _ = play([*NEW, "--draft", str(DRAFT)], ["y", "", "n", "", "", "n", "", "", "", "y"], somebody=True)
    assert code == exits.GOOD, out
    assert "Keep this rule?" in out
    assert files(shop) == [f"kb/{CAUSE}.yaml", "rules/faint-colour.yaml"]


def test_ctrl_c_leaves_nothing(shop: Path) -> None:
    for typed in ([CTRL_C], ["pale", CTRL_C], ["pale", "y", "something", CTRL_C], ["pale", "y"]):
        code, _, err = play(NEW, typed, somebody=True)
        assert (code, files(shop)) == (exits.STOPPED, [])
        assert "Nothing is left half done" in err


def test_what_is_on_trial_is_marked(kept: Path) -> None:
    why = play(["why", CAUSE, "faint-colour"])[1]
    assert "(on trial)" in why
    assert "learnt from: 2026-031" in " ".join(why.split())
    assert "The piece comes cold from the store [this shop, on trial]" in play(["causes", CAUSE])[1]
    assert "The piece comes cold from the store (on trial)" in play(["causes"])[1]
    assert "The piece comes cold from the store (on trial)" in " ".join(play(["defects", "faint-colour"])[1].split())
    assert "The piece comes cold from the store (on trial)" in play(["fixes", "warm-pieces-press-room-overnight"])[1]
    asked = ["diagnose", "--item", "polyester tea towel", "--saw", "faint-colour"]
    asked += ["--answer", "feel-piece-from-pile=colder-than-room"]
    assert "The piece comes cold from the store (on trial)" in " ".join(play(asked)[1].split())
    causes = json.loads(play([*asked, "--json"])[1])["causes"]
    assert {cause["id"]: cause["trial"] for cause in causes}[CAUSE] is True
    assert sum(cause["trial"] for cause in causes) == 1


def test_trials_and_promotion(kept: Path) -> None:
    assert "0 of 3 confirmed cases" in play(["rules", "trials", "--shop", "shop"])[1]
    promote = ["rules", "promote", "faint-colour", CAUSE, "--shop", "shop"]
    assert play(promote)[0] == exits.PROBLEMS
    assert "it cannot confirm it" in play([*promote, "--case", "2026-031"])[2]
    assert "2 more" in play([*promote, "--case", "2026-041"])[1]
    assert "would be noted" in play([*promote, "--case", "2026-042", "--dry-run"])[1]
    told = json.loads(play(["rules", "trials", "--shop", "shop", "--json"])[1])
    assert [(one["cause"], one["confirmed_by"], one["needed"]) for one in told] == [(CAUSE, ["2026-041"], 3)]
    assert "is settled" in play([*promote, "--case", "2026-042", "--case", "2026-043"])[1]
    assert play(["rules", "trials", "--shop", "shop"])[1] == "No rule is on trial.\n"
    assert "(on trial)" not in play(["why", CAUSE, "faint-colour"])[1]
    assert "is settled already" in play([*promote, "--case", "2026-044"])[2]


def test_in_a_real_terminal_with_a_real_ctrl_c(shop: Path) -> None:
    command = ["-m", "diagnose", "rules", "new", "--shop", str(shop), "--draft", str(DRAFT), "--caution", "none"]
    person = pexpect.spawn(
        sys.executable, command, env={**AT_ROOT, "TERM": "xterm"}, encoding="utf-8", timeout=300, dimensions=(40, 40)
    )
    person.expect_exact("The nearest rules there are:")
    person.expect_exact("> ")
    person.sendline("y")
    person.expect_exact("> ")
    person.sendintr()
    person.expect(pexpect.EOF)
    person.close()
    assert (person.exitstatus, files(shop)) == (exits.STOPPED, [])
