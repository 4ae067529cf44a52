"""A command that is killed, at whatever system call, has done its work or has not: what it said is kept is there, the
next start works, and nothing piles up."""

import json
import random
import shutil
from pathlib import Path

import pytest

from diagnose.casebook.case import line
from diagnose.casebook.good import FILE, GoodPressing, note, noted
from diagnose.casebook.store.casebook import open_book
from diagnose.cli import exits
from diagnose.dialogue.moves import LastGood
from diagnose.knowledge.model import Knowledge
from diagnose.problems import PressloreError
from tests.casebook.learning.harbour import Harbour
from tests.casebook.quay import lay_out
from tests.casebook.some import some_cases
from tests.cli.killing import Bench, Trial, can_trace, files
from tests.cli.playing import play

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(not can_trace(), reason="kills are placed by strace, which is not here or may not trace"),
]
DRAFT = Path(__file__).parents[1] / "cases" / "harbour" / "cold-towels.yaml"
BOOK = "book.sqlite3"
DAILY = 2  # kills of each trial


# --- what is in a folder ---


def cases(place: Path, book: str = BOOK) -> list[str]:
    """The cases of a book, but for the ids and days that a new one is given. A book that is not there, or in which
    nothing was begun, holds none."""
    if not (place / book).exists():
        return []
    try:
        with open_book(place / book, create=False) as opened:
            return sorted(line(case).partition('"session"')[2] for case in opened.cases())
    except PressloreError as error:
        if "there is nothing in it" in str(error):
            return []
        raise


def books(place: Path) -> dict[str, list[str]]:
    """The cases of every book in the folder that has one of the names a person is told."""
    return {path.name: cases(place, path.name) for path in sorted(place.glob("*.sqlite3"))}


def in_shop(place: Path) -> dict[str, bytes]:
    """The files of the shop. A record of bundles that names none says the same as no record."""
    found = files(place / "shop")
    record = json.loads(found.get("taken.json", b"{}"))
    return {name: text for name, text in found.items() if name != "taken.json" or record.get("bundles")}


def saved(place: Path) -> list[str]:
    """The moves of each session, however its file is called and whatever else it keeps."""
    return sorted(str(json.loads(text)["moves"]) for text in files(place / "state").values())


# --- what lies in it at first ---


def empty(_: Path) -> None:
    """Nothing."""


def with_book(place: Path) -> None:
    with open_book(place / BOOK) as book:
        book.add(some_cases(3))


def with_lines(place: Path) -> None:
    with_book(place)
    lines = "".join(f"{line(case)}\n" for case in some_cases(4, first=10))
    (place / "cases.jsonl").write_text(lines, encoding="utf-8")


def with_backup(place: Path) -> None:
    with_book(place)
    with open_book(place / "backup.sqlite3") as book:
        book.add(some_cases(5, first=20))


def with_shop(place: Path) -> None:
    (place / "shop").mkdir()
    (place / "shop" / "shop.yaml").write_text("name: The pier\n", encoding="utf-8")


def with_draft(place: Path) -> None:
    with_shop(place)
    shutil.copy(DRAFT, place / "draft.yaml")


def with_bundle(place: Path) -> None:
    with_shop(place)
    quay = lay_out(place / "quay")
    assert play(["rules", "share", "--shop", str(quay), "-o", str(place / "quay.zip")])[0] == exits.GOOD
    shutil.rmtree(quay)


def good_ones(place: Path) -> list[GoodPressing]:
    """The good pressings that are noted."""
    return list(noted(place / FILE))


def with_good(place: Path) -> None:
    """A folder in which one is noted already."""
    note(place / FILE, GoodPressing(item="slate", good=LastGood("2026-11-01", {"set": 200.0})))


CASE = "--item mug --saw ghosting --cured --minutes 20 --date 2026-11-02".split()
FOUND = "--item mug --saw ghosting --answer edges-under-magnifier=edges-doubled".split()
IN_BOOK, IN_SHOP = ("--book", BOOK), ("--shop", "shop")
TRIALS = [
    Trial(name="begin", prepare=empty, command=("cases", "add", *CASE, *IN_BOOK), told="Kept", seen=cases, adds=True),
    Trial(name="add", prepare=with_book, command=("cases", "add", *CASE, *IN_BOOK), told="Kept", seen=cases, adds=True),
    Trial(
        name="import", prepare=with_lines, command=("cases", "import", *IN_BOOK, "cases.jsonl"), told="4", seen=cases
    ),
    Trial(
        name="good",
        prepare=with_good,
        command=("good", "mug", "--set", "190C", "--on", "2026-11-02", *IN_BOOK),
        told="Noted",
        seen=good_ones,
    ),
    Trial(
        name="backup",
        prepare=with_book,
        command=("cases", "backup", *IN_BOOK, "kept.sqlite3"),
        told="kept.sqlite3",
        seen=books,
        once=True,
    ),
    Trial(
        name="restore",
        prepare=with_backup,
        command=("cases", "restore", "--force", *IN_BOOK, "backup.sqlite3"),
        told="Restored",
        seen=cases,
    ),
    Trial(
        name="take",
        prepare=with_bundle,
        command=("rules", "take", *IN_SHOP, "--yes", "quay.zip"),
        told="Taken",
        seen=in_shop,
        once=True,
    ),
    Trial(
        name="new rule",
        prepare=with_draft,
        command=("rules", "new", *IN_SHOP, "--draft", "draft.yaml", "--yes"),
        told="Kept",
        seen=in_shop,
        once=True,
    ),
    Trial(
        name="new shop",
        prepare=empty,
        command=("shop", "new", "shop", "--name", "The pier"),
        typed="\n" * 9,
        told="shop",
        seen=in_shop,
        once=True,
    ),
    Trial(
        name="save",
        prepare=empty,
        command=("diagnose", *FOUND, *IN_BOOK),
        typed="s\n",
        told="Saved",
        seen=saved,
        adds=True,
    ),
    Trial(
        name="end of a dialogue",
        prepare=empty,
        command=("diagnose", *FOUND, *IN_BOOK),
        typed="1\n" * 9,
        told="Kept in the casebook",
        seen=cases,
        adds=True,
        stays="state/presslore/sessions/",  # what was begun waits there to be gone on with
    ),
]


def learning(knowledge: Knowledge) -> Trial:
    def with_cases(place: Path) -> None:
        with_shop(place)
        with open_book(place / "shop" / "casebook.sqlite3") as book:
            book.add(Harbour(knowledge, seed=31).cases(40))

    def learnt(place: Path) -> object:
        return {name: text for name, text in in_shop(place).items() if "sqlite3" not in name}

    command = ("learn", *IN_SHOP, "--apply")
    return Trial(name="learn", prepare=with_cases, command=command, told="learned.yaml", seen=learnt)


BY_NAME = {trial.name: trial for trial in TRIALS}


@pytest.fixture
def trial(request: pytest.FixtureRequest, knowledge: Knowledge) -> Trial:
    return BY_NAME[request.param] if request.param in BY_NAME else learning(knowledge)


EVERY = pytest.mark.parametrize("trial", [*BY_NAME, "learn"], indirect=True)


@pytest.fixture
def bench(tmp_path: Path, tmp_path_factory: pytest.TempPathFactory) -> Bench:
    return Bench(tmp_path / "bench of kills", tmp_path_factory.getbasetemp() / "compiled")


@EVERY
def test_a_command_killed_at_some_call_loses_nothing(trial: Trial, bench: Bench) -> None:
    clean = bench.clean(trial)
    some = random.Random(trial.name).sample(clean.calls, min(DAILY, len(clean.calls)))
    assert {call: wrong for call in some if (wrong := bench.kill(trial, clean, call))} == {}


@pytest.mark.thorough
@EVERY
def test_a_command_killed_at_every_call_loses_nothing(trial: Trial, bench: Bench) -> None:
    clean = bench.clean(trial)
    assert len(clean.calls) > DAILY
    assert {call: wrong for call in clean.calls if (wrong := bench.kill(trial, clean, call))} == {}
