"""What stands in a SQLite file, compared with what a casebook holds: nothing more, nothing less, nothing else."""

import sqlite3
from collections.abc import Iterable
from functools import lru_cache

from sqlalchemy import Connection

from diagnose.characters import stripped

Entry = tuple[str, str, str, str | None]  # kind, name, table, the statement that made it
Schema = frozenset[Entry]
STATISTICS = {
    ("table", name, name, f"CREATE TABLE {name}({columns})")
    for name, columns in (("sqlite_stat1", "tbl,idx,stat"), ("sqlite_stat4", "tbl,idx,neq,nlt,ndlt,sample"))
}  # SQLite's own, where somebody had it analyse the file
LONGEST_NAME = 40
BACKUP = 0x706C626B  # the file's "application id" while it is a backup that nobody has written to
MARK, UNMARK, MARKED = f"PRAGMA application_id = {BACKUP}", "PRAGMA application_id = 0", "PRAGMA application_id"


def there(connection: Connection) -> Schema:
    """What stands in a file. Nothing of it is run or read by this."""
    rows = connection.exec_driver_sql("SELECT type, name, tbl_name, sql FROM sqlite_schema")
    return frozenset((str(kind), str(name), str(table), sql) for kind, name, table, sql in rows) - STATISTICS


@lru_cache(maxsize=8)
def made_by(statements: tuple[str, ...]) -> Schema:
    """What these statements make."""
    connection = sqlite3.connect(":memory:")
    try:
        for statement in statements:
            connection.execute(statement)
        return frozenset(connection.execute("SELECT type, name, tbl_name, sql FROM sqlite_schema"))
    finally:
        connection.close()


def has_book(found: Schema, plans: Iterable[Schema]) -> bool:
    """Whether the table that tells a casebook's version is there, and nothing that passes for it."""
    return any(entry in found for plan in plans for entry in plan if entry[:2] == ("table", "book"))


def first_name(found: Schema) -> str:
    """The name of one of them."""
    return min(name for _, name, _, _ in found)


def no_casebook(name: str) -> str:
    """What is wrong with a database of something else."""
    return f"a database, but no casebook (it holds {_shown(name)}): name another with --book"


def difference(found: Schema, plan: Schema) -> str:
    """What is otherwise than in a casebook, "" where nothing is."""
    odd = sorted(entry[:2] for entry in found ^ plan)
    if not odd:
        return ""
    kind, name = odd[0]
    if not any(entry[:2] == odd[0] for entry in plan):
        return f"it holds what no casebook holds ({kind} {_shown(name)}): {STRANGE}"
    if not any(entry[:2] == odd[0] for entry in found):
        return f"the {kind} {name} is missing from it: {STRANGE}"
    return f"its {kind} {name} is not as presslore made it: {STRANGE}"


STRANGE = "it is damaged or was changed by something else, and nothing in it is used - put a backup in its place"


def _shown(name: str) -> str:
    return stripped(name[:LONGEST_NAME])
