"""The tables of the rack, as they are after the newest step. SI units; money as the text it was written in."""

from sqlalchemy import (
    CheckConstraint,
    Column,
    Float,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
)

METADATA = MetaData()
"""All tables of this file; the day book keeps its own."""

COUNTER = Table(
    "rack_counter",
    METADATA,
    Column("kind", Text, primary_key=True),
    Column("last", Integer, nullable=False),
)
"""The last number given to a bar (`bar`) or a sheet (`sheet`): none is ever given again."""

PIECE = Table(
    "rack_piece",
    METADATA,
    Column("id", Text, primary_key=True),
    Column("kind", Text, nullable=False),
    Column("number", Integer, nullable=False),
    Column("version", Integer, nullable=False),
    Column("gone", Text, nullable=False),
    Column("shape", Text, nullable=False),
    Column("width", Float(53), nullable=False),
    Column("thick", Float(53), nullable=False),
    Column("wall", Float(53), nullable=False),
    Column("fullness", Float(53), nullable=False),
    Column("length", Float(53), nullable=False),
    Column("outline", Text, nullable=False),
    Column("gauge", Text, nullable=False),
    Column("grain", Float(53)),
    Column("steel", Text, nullable=False),
    Column("coating", Text, nullable=False),
    Column("place", Text, nullable=False),
    Column("price", Text, nullable=False),
    Column("currency", Text, nullable=False),
    Column("offcut", Integer, nullable=False),
    Column("of", Text, ForeignKey("rack_piece.id")),
    Column("remark", Text, nullable=False),
    UniqueConstraint("kind", "number"),
    CheckConstraint("kind in ('bar', 'sheet')"),
    CheckConstraint("version > 0"),
)
"""Every piece of stock there ever was: sizes [m], grain [rad], outline as exact lines and arcs in JSON.

`gone`: why it is not in the rack any more ("": it is there; "cut"; "removed"). Nothing is ever deleted.
"""

CHANGE = Table(
    "rack_change",
    METADATA,
    Column("number", Integer, primary_key=True, autoincrement=True),
    Column("piece", Text, ForeignKey("rack_piece.id"), nullable=False),
    Column("version", Integer, nullable=False),
    Column("at", Text, nullable=False),
    Column("who", Text, nullable=False),
    Column("what", Text, nullable=False),
    Column("says", Text, nullable=False),
    Column("fields", Text, nullable=False),
    Column("jobs", Text, nullable=False),
    Column("cuts", Text, nullable=False),
    UniqueConstraint("piece", "version"),
)
"""What happened to each piece, one row for each version of it; rows are only ever added.

`at`: UTC, ISO 8601. `fields`: what was changed, as JSON; those of all rows one after another give the piece. `jobs`,
`cuts`: JSON lists of words.
"""

Index("rack_piece_there", PIECE.c.gone, PIECE.c.kind, PIECE.c.number)
