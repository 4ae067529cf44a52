"""Whatever an option that writes is given, nothing that presslore did not make and nothing of another kind is lost."""

import os
import sqlite3
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from diagnose.casebook.store.casebook import open_book
from diagnose.cli import exits
from diagnose.cli.program import program
from tests.casebook.some import some_cases
from tests.cli.playing import play

READ = {  # options and arguments that name a file or folder to read, or to work on as a whole
    "ready --job", "colour FILE", "cases import FILES", "cases restore FILE", "rules check FOLDER", "rules take BUNDLE",
    "rules new --draft",
}  # fmt: skip
ELSEWHERE = {"handbook build --out", "rules share --out"}  # held by tests beside their own
FOLDERS = {"shop new FOLDER"}
WRITERS = {
    "diagnose --save": ("diagnose", "--saw", "ghosting", "--save"),
    "cases export --out": ("cases", "export", "--out"),
    "cases export --out (csv)": ("cases", "export", "--format", "csv", "--out"),
    "cases report --html": ("cases", "report", "--html"),
    "cases backup FILE": ("cases", "backup"),
    "rules new --write-draft": ("rules", "new", "--write-draft"),
}
NO_FORCE = {"rules new --write-draft"}


def _commands(command: click.Command, name: str = "") -> Iterator[tuple[str, click.Command]]:
    if isinstance(command, click.Group):
        for each in command.list_commands(click.Context(command)):
            found = command.get_command(click.Context(command), each)
            assert found is not None
            yield from _commands(found, f"{name} {each}".strip())
    else:
        yield name, command


def test_every_option_that_names_a_file_is_known_here() -> None:
    """A new one is either read only, or one of those that are tried below."""
    named = {
        f"{name} {max(parameter.opts, key=len) if isinstance(parameter, click.Option) else parameter.name.upper()}"
        for name, command in _commands(program)
        for parameter in command.params
        if isinstance(parameter.type, click.Path) and parameter.name not in ("shop", None)
    }
    assert named == READ | ELSEWHERE | FOLDERS | {name for name in WRITERS if "(" not in name}


@pytest.fixture
def shop() -> Path:
    """A shop's folder with a casebook, and files of other people beside it."""
    folder = Path("shop")
    for name, text in {
        "shop.yaml": "name: The harbour workshop\n",
        "rules/own.yaml": "adds-to: pale\n",
        "kb/own.yaml": "glossary: {}\n",
        "diary.txt": "Dear diary",
        "page.html": "<!doctype html><html><head><title>My shop</title></head></html>",
        "data.json": '{"format": "cake-recipe"}',
        "table.csv": "id,name\n1,Ann\n",
        "half": "{",
    }.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    with open_book(folder / "casebook.sqlite3") as book:
        book.add(some_cases(3))
    with sqlite3.connect(folder / "songs.sqlite3") as other:
        other.execute("CREATE TABLE songs (name)")
    other.close()
    (folder / "link").symlink_to("shop.yaml")
    (folder / "dangling").symlink_to("nowhere")
    (folder / "folder").mkdir()
    os.mkfifo(folder / "pipe")
    return folder


def everything(folder: Path) -> dict[str, object]:
    """All that is in a folder, but for what SQLite keeps beside an open file."""
    paths = [path for path in sorted(folder.rglob("*")) if not path.name.endswith(("-wal", "-shm"))]
    return {str(path): _content(path) for path in paths}


def _content(path: Path) -> object:
    if path.is_symlink():
        return os.readlink(path)
    return path.read_bytes() if path.is_file() else path.lstat().st_mode


TARGETS = [
    "shop.yaml", "rules/own.yaml", "kb/own.yaml", "diary.txt", "page.html", "data.json", "table.csv", "half",
    "casebook.sqlite3", "songs.sqlite3", "link", "dangling", "folder", "pipe", "shop.yaml/under-a-file",
    "no/such/folder/file",
]  # fmt: skip


@pytest.mark.parametrize("writer", WRITERS)
@pytest.mark.parametrize("force", [False, True])
def test_what_is_something_else_stays_as_it_is(writer: str, force: bool, shop: Path) -> None:
    if force and writer in NO_FORCE:
        pytest.skip("it takes no --force")
    before = everything(shop)
    for target in TARGETS:
        if target == "no/such/folder/file" and writer == "diagnose --save":
            continue  # it makes the folder
        args = [*WRITERS[writer], str(shop / target), *(["--force"] if force else [])]
        book = ["--book", str(shop / "casebook.sqlite3")] if writer.startswith("cases") else []
        code, out, err = play([*args, *book])
        assert code in (exits.PROBLEMS, exits.USAGE), target
        assert str(shop) in err, target
        assert "Traceback" not in out + err
        assert everything(shop) == before, target


@pytest.mark.parametrize("writer", WRITERS)
def test_one_of_its_kind_gives_way_only_where_that_is_said(writer: str, shop: Path) -> None:
    args = [*WRITERS[writer], str(shop / "made"), *_of(shop, writer)]
    assert play(args)[0] == exits.GOOD
    first = (shop / "made").read_bytes()
    (shop / "made").write_bytes(first + b"\n") if writer != "cases backup FILE" else None
    before = everything(shop)
    code, _, err = play(args)
    assert (code, everything(shop)) == (exits.PROBLEMS, before)
    if writer in NO_FORCE:
        return
    assert "there is such a file already: name another, or add --force" in " ".join(err.split())
    assert play([*args, "--force"])[0] == exits.GOOD
    if writer not in ("cases backup FILE", "diagnose --save"):  # a copy and a case have their own times and ids
        assert (shop / "made").read_bytes() == first


@pytest.mark.parametrize("writer", [name for name in WRITERS if name not in NO_FORCE])
def test_what_another_option_made_is_of_another_kind(writer: str, shop: Path) -> None:
    made = {other: str(shop / f"made-{number}") for number, other in enumerate(WRITERS)}
    for other, path in made.items():
        assert play([*WRITERS[other], path, *_of(shop, other)])[0] == exits.GOOD
    before = everything(shop)
    for other, path in made.items():
        if other != writer:
            code, _, err = play([*WRITERS[writer], path, "--force", *_of(shop, writer)])
            assert code == exits.PROBLEMS, other
            assert f"{path}: this is not" in " ".join(err.split()), other
            assert everything(shop) == before


def _of(shop: Path, writer: str) -> list[str]:
    return ["--shop", str(shop)] if writer.startswith("cases") else []


def test_a_new_shop_is_laid_out_over_nothing(shop: Path) -> None:
    (shop / "lonely").mkdir()
    (shop / "lonely" / "notes.txt").write_text("Dear diary", encoding="utf-8")
    before = everything(shop)
    for target in (".", "lonely", *(each for each in TARGETS if each not in ("folder", "no/such/folder/file"))):
        code, out, err = play(["shop", "new", str(shop / target), "--name", "Quay"])
        assert code in (exits.PROBLEMS, exits.USAGE), target
        assert "Traceback" not in out + err
        assert everything(shop) == before, target


def test_the_casebook_itself_is_never_the_backup(shop: Path) -> None:
    before = (shop / "casebook.sqlite3").read_bytes()
    code, _, err = play(["cases", "backup", str(shop / "casebook.sqlite3"), "--force", "--shop", str(shop)])
    assert code == exits.PROBLEMS
    assert "this is a casebook, and is left alone" in " ".join(err.split())
    assert (shop / "casebook.sqlite3").read_bytes() == before


def test_a_session_is_refused_before_anything_is_asked(shop: Path) -> None:
    code, out, err = play(["diagnose", "--save", str(shop / "shop.yaml")], ["mug", "ghosting"], somebody=True)
    assert (code, out) == (exits.PROBLEMS, "")
    assert "this is not a saved dialogue" in err
