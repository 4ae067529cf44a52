"""``diagnose`` by flags: the JSON, saving and resuming, and that nobody is asked who is not there."""

import json
import random
import subprocess
import sys
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from diagnose.cli import exits
from diagnose.dialogue.hearing import Heard
from diagnose.dialogue.moves import Saw
from diagnose.dialogue.saving import to_json
from diagnose.dialogue.session import Session
from diagnose.knowledge.model import Knowledge
from tests.cli.playing import AT_ROOT, play

SCHEMA = json.loads(files("diagnose.dialogue").joinpath("schema", "diagnosis.json").read_text(encoding="utf-8"))
TOWEL = ["--item", "65/35 polyester cotton tea towel"]
SAW = ["--saw", "print is pale and there is a faint second copy"]
ANSWERS = [
    "--answer=edges-under-magnifier=edges-doubled",
    "--answer=spent-sheet=little-left",
    "--answer=surface-feel=feels-as-blank",
]
CALLS = {
    "words": [*TOWEL, *SAW],
    "ids": ["--item", "tea-towel-65-35", "--saw", "ghosting", "--saw", "faint-colour"],
    "answers": [*TOWEL, *SAW, *ANSWERS],
    "unknown item": ["--item", "zxcvbn", "--saw", "pale"],
    "not seen": ["--saw", "pale", "--not-seen", "ghosting"],
    "fact": ["--fact", "item.polyester=40", "--fact", "item.coated=no", "--saw", "poor-uptake"],
    "cannot": ["--saw", "ghosting", "--cannot-tell", "edges-under-magnifier", "--cannot-do", "peel-in-one-stroke"],
    "tried": ["--saw", "ghosting", "--tried", "peel-in-one-stroke", "--tried", "tape-two-edges"],
    "much at once": [
        f"--saw={each}" for each in ("ghosting", "faint-colour", "banding", "shine", "scorching", "creases")
    ],
    "nothing": ["--saw", "zxcvbn"],
}


def diagnosis(*flags: str) -> dict[str, Any]:
    """What ``diagnose --json`` prints; all of standard output is that one value."""
    code, out, _ = play(["diagnose", *flags, "--json"])
    assert code in (exits.GOOD, exits.NOT_UNDERSTOOD)
    whole: dict[str, Any] = json.loads(out)
    return whole


def shown(whole: dict[str, Any]) -> dict[str, Any]:
    """A diagnosis without how the words were taken."""
    return {key: value for key, value in whole.items() if key != "understood"}


@pytest.mark.parametrize("flags", CALLS.values(), ids=CALLS)
def test_json_keeps_to_its_schema_and_its_promises(flags: list[str], knowledge: Knowledge) -> None:
    whole = diagnosis(*flags)
    jsonschema.Draft202012Validator(SCHEMA).validate(whole)
    chances = [cause["probability"] for cause in whole["causes"]]
    assert chances == sorted(chances, reverse=True)
    for cause in whole["causes"]:
        assert knowledge.causes[cause["id"]].title == cause["title"]
        for side, sign in (("for", 1), ("against", -1)):
            weights = [reason["decibans"] * sign for reason in cause[side]]
            assert weights == sorted(weights, reverse=True)
            assert all(weight >= 0 for weight in weights)
        for reason in (*cause["for"], *cause["against"]):
            assert reason["id"] in {"answer": knowledge.checks, "tried": knowledge.fixes}.get(
                reason["kind"], knowledge.defects
            )
    step = whole["next"]
    assert step["id"] in {"check": knowledge.checks, "fix": knowledge.fixes}.get(step["kind"], {""})
    assert set(step["cautions"]) <= set(knowledge.cautions)
    for other in whole["alternatives"]:
        assert other["id"] in {"check": knowledge.checks, "fix": knowledge.fixes}.get(other["kind"], {""})
    for turn in whole["would_change"]:
        assert knowledge.checks[turn["check"]].outcome(turn["outcome"])
        assert turn["cause"] in knowledge.causes
    assert all(seen["id"] in knowledge.defects for seen in whole["understood"]["defects"])


def test_a_pale_and_doubled_towel() -> None:
    understood = diagnosis(*CALLS["words"])["understood"]
    assert [defect["id"] for defect in understood["defects"]] == ["faint-colour", "ghosting"]
    assert understood["item"]["id"] == "tea-towel-65-35"
    assert understood["facts"]["item.polyester"] == 65


def less_words(whole: dict[str, Any]) -> dict[str, Any]:
    """All but the very words that were used."""
    return {**whole, "understood": {**whole["understood"], "words": {}}}


def test_ids_and_words_say_the_same() -> None:
    told = "--answer=edges-under-magnifier=edges-doubled"  # which "a faint second copy" says as well
    assert less_words(diagnosis(*CALLS["words"])) == less_words(diagnosis(*CALLS["ids"], told))


def test_the_order_of_answers_does_not_matter() -> None:
    first = diagnosis(*CALLS["answers"])
    for turn in range(3):
        turned = random.Random(turn).sample(ANSWERS, len(ANSWERS))
        assert shown(diagnosis(*TOWEL, *SAW, *turned)) == shown(first)


def test_the_same_call_prints_the_same_bytes() -> None:
    assert play(["diagnose", *CALLS["answers"], "--json"]) == play(["diagnose", *CALLS["answers"], "--json"])


def test_an_answer_changes_the_beliefs_and_cannot_tell_does_not() -> None:
    before = diagnosis("--saw", "ghosting")
    asked = diagnosis("--saw", "ghosting", "--answer", "edges-under-magnifier=edges-sharp")
    unknown = diagnosis("--saw", "ghosting", "--cannot-tell", "edges-under-magnifier")
    assert asked["causes"] != before["causes"]
    assert unknown["causes"] == before["causes"]


@pytest.mark.parametrize(("flag", "kind"), [("--cannot-do", "fix"), ("--tried", "fix"), ("--cannot-tell", "check")])
def test_what_was_put_aside_is_not_proposed_again(flag: str, kind: str) -> None:
    flags, gone = ["--saw", "ghosting", "--saw", "faint-colour"], []
    for _ in range(6):
        step = diagnosis(*flags)["next"]
        assert step["id"] not in gone
        aside = flag if step["kind"] == kind else "--cannot-tell" if step["kind"] == "check" else "--cannot-do"
        flags += [aside, step["id"]]
        gone.append(step["id"])


def test_a_fix_that_did_not_help_speaks_against_what_it_cures() -> None:
    def chance(whole: dict[str, Any]) -> float:
        return next((c["probability"] for c in whole["causes"] if c["id"] == "sheet-not-held"), 0.0)

    tried = diagnosis("--saw", "ghosting", "--tried", "tape-two-edges")
    assert chance(tried) < chance(diagnosis("--saw", "ghosting"))


def test_nothing_understood_says_so_and_proposes_nothing() -> None:
    whole = diagnosis("--saw", "zxcvbn")
    assert whole["next"]["kind"] == "say"
    assert whole["causes"] == []
    assert whole["understood"]["not_understood"] == ["zxcvbn"]


# --- nobody there ---


def test_a_danger_is_told_and_nothing_else() -> None:
    words = ["--item", "mug", "--saw", "pale", "--saw", "the press is smoking"]
    code, out, err = play(["diagnose", *words])
    assert (code, err) == (exits.PROBLEMS, "")
    assert "SMOKE" in out
    assert "pale" not in out.lower()
    code, out, _ = play(["diagnose", *words, "--json"])
    whole = json.loads(out)
    jsonschema.validate(whole, SCHEMA)
    assert code == exits.PROBLEMS
    assert whole["danger"]["id"] == "smoke"
    assert whole["danger"]["steps"][0].startswith("Power off")
    assert diagnosis("--saw", "smoke-grey mug came out pale")["danger"] is None


def test_another_craft_is_said_to_be_one(monkeypatch: pytest.MonkeyPatch, knowledge: Knowledge) -> None:
    craft = knowledge.elsewhere["vinyl"]
    monkeypatch.setattr("diagnose.cli.asking.flags.hear", lambda *_: Heard(elsewhere="vinyl"))
    code, out, err = play(["diagnose", "--saw", "htv edges lifting"])
    assert (code, out) == (exits.NOT_UNDERSTOOD, "")
    assert craft.turn_to in " ".join(err.split())
    assert "nothing to go on" not in err.lower()
    _, out, _ = play(["diagnose", "--saw", "htv edges lifting", "--json"])
    whole = json.loads(out)
    jsonschema.validate(whole, SCHEMA)
    told = {"id": "vinyl", "title": craft.title, "says": craft.says, "turn_to": craft.turn_to}
    assert whole["understood"]["elsewhere"] == [told]


@pytest.mark.parametrize(
    "call",
    [
        ["settings", "help its on fire"],
        ["heat", "my hand is stuck in the press"],
        ["care", "burnt my hand on the mug"],
        ["cases", "add", "--item", "mug", "--saw", "the plug is smoking", "--handed-over"],
    ],
)
def test_other_commands_tell_a_danger_too(call: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    code, out, err = play(call)
    assert (code, out) == (exits.PROBLEMS, "")
    assert "CALL" in err


@pytest.mark.parametrize("stdin", [subprocess.DEVNULL, subprocess.PIPE, None], ids=["empty", "piped", "closed"])
def test_nothing_is_asked_without_a_terminal(stdin: int | None) -> None:
    command = [sys.executable, "-m", "diagnose", "diagnose", "--item", "mug"]
    if stdin is None:
        command = ["sh", "-c", 'exec "$@" <&-', "sh", *command]
    pipe = subprocess.PIPE
    with subprocess.Popen(command, env=AT_ROOT, stdin=stdin, stdout=pipe, stderr=pipe, text=True) as running:
        out, err = running.communicate("ghosting\ny\n1\n" if stdin == pipe else None, timeout=120)
    assert running.returncode == exits.NOT_UNDERSTOOD
    assert out == ""
    assert err.startswith("Nothing to go on")


def test_a_reader_who_goes_away_is_no_trouble() -> None:
    for command in ("demo", "diagnose --saw ghosting --json"):
        call = f"{sys.executable} -m diagnose {command}"
        script = f"{call} | head -n 1 >/dev/null; echo ${{PIPESTATUS[0]}}"
        done = subprocess.run(["bash", "-c", script], env=AT_ROOT, capture_output=True, text=True, timeout=120)
        assert (done.stdout, done.stderr) == ("0\n", "")


# --- leaving and going on ---


def test_saved_and_resumed_says_the_same(tmp_path: Path) -> None:
    file = str(tmp_path / "kept" / "towels.json")
    first = diagnosis(*CALLS["answers"], "--tried", "tape-two-edges", "--save", file)
    resumed = diagnosis("--resume", file)
    assert resumed == less_words(first)
    more = diagnosis("--resume", file, "--not-seen", "banding", "--save", file)
    assert diagnosis("--resume", file) == less_words(more)
    assert more != first


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "damaged"),
        ('{"format": "presslore-session", "version": 1', "damaged"),
        ('{"format": "presslore-session", "version": 99, "knowledge": "", "moves": []}', "newer presslore"),
        ('{"format": "cake-recipe", "version": 1}', "not a saved session"),
        ('{"format": "presslore-session", "version": 1, "knowledge": "", "moves": [{"move": "sang"}]}', "damaged"),
        (
            to_json(Session((Saw(("rust",)),)), "old"),
            "no longer known: rust",
        ),
    ],
)
def test_a_session_file_that_does_not_serve_is_named(text: str, says: str) -> None:
    Path("towels.json").write_text(text, encoding="utf-8")
    for somebody in (False, True):
        code, out, err = play(["diagnose", "--resume", "towels.json"], somebody=somebody)
        assert (code, out) == (exits.PROBLEMS, "")
        assert "towels.json" in err
        assert says in err


def test_a_session_that_cannot_be_read_or_written_is_named(tmp_path: Path) -> None:
    Path("picture.json").write_bytes(b"\xff\xd8\xff")
    for file, says in (
        ("picture.json", "no UTF-8 text"),
        ("nowhere.json", "no such file"),
        (str(tmp_path), "a folder"),
    ):
        code, _, err = play(["diagnose", "--resume", file])
        assert code == exits.PROBLEMS
        assert says in err
    code, _, err = play(["diagnose", "--saw", "pale", "--save", "picture.json/under-a-file.json"])
    assert code == exits.PROBLEMS
    assert err.startswith("cannot save the session to picture.json")


def test_there_may_be_no_session_to_go_on_with() -> None:
    code, _, err = play(["diagnose", "--resume"])
    assert code == exits.PROBLEMS
    assert err == "no session was left that could be gone on with: begin one with presslore diagnose\n"
