"""The command tree: help with examples that run, and the exit codes that are documented."""

import os
import re
import shlex
import shutil
from collections.abc import Iterator
from hashlib import sha256
from http.server import ThreadingHTTPServer
from pathlib import Path

import click
import pytest

from diagnose.casebook.report.report import Report
from diagnose.cli import exits
from diagnose.cli.program import program
from diagnose.cli.shop import shelf
from diagnose.handbook import building, placing
from diagnose.handbook import site as handbook_site
from diagnose.handbook.building import Drift
from diagnose.handbook.site import site
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.pace import Far
from tests.casebook.quay import lay_out
from tests.cli.playing import PLAIN, play
from tests.cli.rules.test_rule_new import DRAFT


def commands(
    group: click.Group = program, path: tuple[str, ...] = ()
) -> Iterator[tuple[tuple[str, ...], click.Command]]:
    """Every command and group, with the words that call it."""
    yield path, group
    context = click.Context(group)
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        assert command is not None
        if isinstance(command, click.Group):
            yield from commands(command, (*path, name))
        else:
            yield (*path, name), command


ALL = dict(commands())
EXAMPLE = re.compile(r"\bpresslore (.*?)(?:\)\")?$")


def examples(path: tuple[str, ...]) -> list[str]:
    """The calls shown as examples in the help of a command, without the command's own name."""
    _, out, _ = play([*path, "--help"])
    return [call[1] for line in out[out.index("Example") :].splitlines() if (call := EXAMPLE.search(line))]


@pytest.mark.parametrize("path", ALL, ids=" ".join)
def test_help_says_in_one_sentence_what_the_command_does(path: tuple[str, ...]) -> None:
    code, out, err = play([*path, "--help"])
    assert (code, err) == (exits.GOOD, "")
    first = out.splitlines()[2].strip()
    assert re.fullmatch(r"[A-Z][^.]*\.", first), f"not one whole sentence on one line: {first}"
    assert len(first.split()) <= 14
    assert "-h, --help" in out


@pytest.mark.parametrize(
    "path", [path for path, command in ALL.items() if isinstance(command, click.Group)], ids=" ".join
)
def test_a_list_of_commands_cuts_no_sentence_short(path: tuple[str, ...]) -> None:
    _, out, _ = play([*path, "--help"])
    assert "..." not in out.replace("[ARGS]...", "")


@pytest.mark.parametrize("path", ALL, ids=" ".join)
def test_the_help_ends_with_examples(path: tuple[str, ...]) -> None:
    assert examples(path)


LAY_OUT = "lay out "  # no call, but the folder of a shop with rules of its own
DRAWN: dict[tuple[str, bool], dict[str, bytes]] = {}


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where what is laid out for examples is kept for the next ones."""
    return tmp_path_factory.mktemp("laid")


def _drawn_once(
    knowledge: Knowledge, shop: Shop, changes: str, docs: dict[str, bytes], report: Report | None = None, *far: Far
) -> dict[str, bytes]:
    """The pages of the handbook, drawn once for all examples that build, show or compare them."""
    key = (knowledge.version, report is None)
    if key not in DRAWN:
        DRAWN[key] = site(knowledge, shop, changes, docs, report, *far)
    return DRAWN[key]


ENDS_OTHERWISE = {  # without a terminal nobody is asked, no shop in here has this cause, and some jobs are to stop
    "diagnose": exits.NOT_UNDERSTOOD,
    "ready": exits.USAGE,
    'ready --item "black cotton t-shirt"': exits.PROBLEMS,
    'ready --item "tea towel" --set 180C --dwell 45s --not-so held': exits.PROBLEMS,
    "cases add": exits.USAGE,
    "rules new": exits.USAGE,
    "rules new --defect faint-colour --cause damp-item --brings rarely": exits.USAGE,
    "rules take quay.zip --shop my-shop --yes --digest 4821-0937-5520-1184-7302": exits.PROBLEMS,  # of no bundle
    "rules promote faint-colour piece-comes-cold --case 5ab3c7 --case 77e01f": exits.USAGE,
}


@pytest.mark.parametrize("call", sorted({call for path in ALL for call in examples(path)}))
def test_every_example_in_the_help_runs(call: str, tmp_path: Path, laid: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    if call.startswith(("learn", "rules new", "rules promote", "rules share", "rules trials", "shop show")):
        monkeypatch.setenv(shelf.SHOP_VARIABLE, str(Path("my-shop").absolute()))
    _lay_out_what_the_examples_speak_of(call, tmp_path, laid)
    monkeypatch.setattr(handbook_site, "site", _drawn_once)
    monkeypatch.setattr(building, "drift", lambda folder, files: Drift())
    monkeypatch.setattr(building, "write", lambda folder, files: Drift())
    monkeypatch.setattr(building, "build", lambda root, out, *pages, **settings: None)
    monkeypatch.setattr(placing, "prove", lambda target, kept=(): None)  # whatever stands in this checkout
    monkeypatch.setattr(ThreadingHTTPServer, "serve_forever", lambda self: None)
    free = ["--port", "0"] if "serve" in call else []  # the usual one may be taken on the machine that tests
    code, _, err = play([*shlex.split(call.partition(" > ")[0]), *free])
    assert code == ENDS_OTHERWISE.get(call, exits.GOOD), err


def _lay_out_what_the_examples_speak_of(example: str, here: Path, laid: Path) -> None:
    """Lay it out in the test's folder; what the same calls have laid out before is copied."""
    calls = tuple(_calls_before(example))
    before = laid / sha256(f"{shelf.SHOP_VARIABLE in os.environ} {calls}".encode()).hexdigest()
    if before.exists():
        shutil.copytree(before, here, dirs_exist_ok=True)
    else:
        _called(calls)
        shutil.copytree(here, before)
    if "--job" in example:
        Path("fete.yaml").write_text("item: 65/35 tea towel\npieces: 24\nrest-so: true\n", encoding="utf-8")
    if example.startswith("colour"):
        Path("measured.csv").write_text("name,L,a,b\nred proof,52,40,20\nred print,58,33,18\n", encoding="utf-8")
    if "--draft" in example:
        shutil.copy(DRAFT, "draft.yaml")


def _calls_before(example: str) -> Iterator[str]:
    if not example.startswith(("shop new", "rules share")):
        yield "shop new my-shop --name 'The harbour workshop'"
    if example.startswith(("rules share", "rules take")):
        yield LAY_OUT + ("my-shop" if "share" in example else "quay")
    if example.startswith("rules take"):
        yield "rules share --shop quay -o quay.zip"
    if example.startswith("rules take --undo"):
        yield "rules take quay.zip --shop my-shop --yes"
    yield "cases add --saw ghosting --cured-by peel-in-one-stroke"
    yield "cases export --out their-cases.jsonl"
    yield "cases backup monday.sqlite3"
    if example == "learn --undo":
        yield "learn --apply"


def _called(calls: tuple[str, ...]) -> None:
    for folder in ("my-shop-before", "stick"):
        Path(folder).mkdir()
    for call in calls:
        if call.startswith(LAY_OUT):
            lay_out(Path(call.removeprefix(LAY_OUT)))
            Path("my-shop", "rules").mkdir(parents=True, exist_ok=True)
        else:
            assert play(shlex.split(call))[0] == exits.GOOD


@pytest.mark.parametrize("path", ALL, ids=" ".join)
@pytest.mark.parametrize("columns", [40, 88])
def test_help_fits_the_screen(path: tuple[str, ...], columns: int) -> None:
    _, out, _ = play([*path, "--help"], environment={**PLAIN, "COLUMNS": str(columns)})
    calls = re.compile(r"presslore|^Usage:")  # a call stays on one line, so that it can be copied
    assert [line for line in out.splitlines() if len(line) > columns and not calls.search(line)] == []


def test_the_help_documents_the_exit_codes() -> None:
    _, out, _ = play(["--help"])
    told = out[out.index("Exit codes") :]
    for code in (exits.GOOD, exits.PROBLEMS, exits.USAGE, exits.NOT_UNDERSTOOD, exits.STOPPED):
        assert re.search(rf"\b{code} \w", told)


@pytest.mark.parametrize(
    ("call", "code"),
    [
        ("--version", exits.GOOD),
        ("defects ghosting", exits.GOOD),
        ("diagnose --saw pale", exits.GOOD),
        ("diagnose --saw pale --json", exits.GOOD),
        ("why ink-old ghosting", exits.PROBLEMS),
        ("diagnose --resume", exits.PROBLEMS),
        ("", exits.USAGE),
        ("rules", exits.USAGE),
        ("sing", exits.USAGE),
        ("diagnose --sing", exits.USAGE),
        ("defects barnacles", exits.USAGE),
        ("schema barnacles", exits.USAGE),
        ("rules check nowhere", exits.USAGE),
        ("diagnose", exits.NOT_UNDERSTOOD),
        ("diagnose --json", exits.NOT_UNDERSTOOD),
        ("diagnose --item mug", exits.NOT_UNDERSTOOD),
        ("diagnose --saw zxcvbn", exits.NOT_UNDERSTOOD),
    ],
)
def test_exit_codes(call: str, code: int) -> None:
    found, out, err = play(shlex.split(call))
    assert found == code
    assert "Traceback" not in out + err
    assert bool(err) == (code != exits.GOOD and "--json" not in call)


def test_a_misspelt_command_is_met_with_the_nearest() -> None:
    _, out, err = play(["diagnos"])
    assert out == ""
    assert "no command 'diagnos'. Did you mean diagnose?" in err


def test_a_wrong_call_is_told_where_the_help_stands() -> None:
    _, _, err = play(["defects", "ghostng"], environment={**PLAIN, "COLUMNS": "40"})
    assert "Try: presslore defects --help" in err
    assert "Did you mean ghosting?" in " ".join(err.split())
