"""The casebook's tables, as its newest version has them. Cases that show the same share one pattern: the evidence
stands once with the pattern, what a case cost and its exact moves with the case."""

from sqlalchemy import Column, Double, ForeignKey, Index, Integer, MetaData, PrimaryKeyConstraint, Table
from sqlalchemy.types import REAL, Text, TypeEngine

# Ids and times sort by their letters' codes everywhere, so that the order is the same in every database.
WORD = Text().with_variant(Text(collation="C"), "postgresql")
NUMBER: TypeEngine[float] = Double().with_variant(REAL(), "sqlite")
TABLES = MetaData()


def _word(name: str, *more: ForeignKey) -> Column[str]:
    return Column(name, WORD, *more, nullable=False)


def _whole(name: str) -> Column[int]:
    return Column(name, Integer, nullable=False)


book = Table("book", TABLES, _whole("version"))

pattern = Table(
    "pattern",
    TABLES,
    _word("digest"),
    _word("press"),
    _word("item"),
    _word("ending"),
    _word("cured_by"),
    _word("moves"),
    PrimaryKeyConstraint("digest"),
)

cases = Table(
    "cases",
    TABLES,
    _word("id"),
    _word("ended"),
    _word("pattern", ForeignKey("pattern.digest")),
    Column("minutes", NUMBER),
    _whole("spoilt"),
    Column("lost", NUMBER),
    _word("knowledge"),
    _word("source"),
    _word("moves"),
    _word("digest"),
    PrimaryKeyConstraint("id"),
    Index("cases_in_time", "ended", "id"),
    Index("cases_alike", "pattern", "id"),
)

seen = Table(
    "seen",
    TABLES,
    _word("pattern", ForeignKey("pattern.digest")),
    _word("defect"),
    _whole("there"),
    PrimaryKeyConstraint("pattern", "defect"),
)

answer = Table(
    "answer",
    TABLES,
    _word("pattern", ForeignKey("pattern.digest")),
    _word("asked"),
    _word("outcome"),
    _whole("period"),
    PrimaryKeyConstraint("pattern", "asked"),
)

tried = Table(
    "tried",
    TABLES,
    _word("pattern", ForeignKey("pattern.digest")),
    _whole("number"),
    _word("fix"),
    _word("change"),
    PrimaryKeyConstraint("pattern", "number"),
)

figure = Table(
    "figure",
    TABLES,
    _word("pattern", ForeignKey("pattern.digest")),
    _word("name"),
    _whole("period"),
    Column("value", NUMBER, nullable=False),
    PrimaryKeyConstraint("pattern", "name", "period"),
)

took = Table(
    "took",
    TABLES,
    _word("case_id", ForeignKey("cases.id")),
    _word("step"),
    Column("minutes", NUMBER, nullable=False),
    PrimaryKeyConstraint("case_id", "step"),
    Index("took_by_step", "step", "minutes"),
)
