"""The tables of the day book, as they are after the newest step."""

from sqlalchemy import CheckConstraint, Column, ForeignKey, Integer, MetaData, Table, Text

METADATA = MetaData()
"""All tables of this room."""

DAY_BOOK = Table(
    "day_book",
    METADATA,
    Column("number", Integer, primary_key=True, autoincrement=True),
    *(Column(name, Text, nullable=False) for name in ("at", "who", "what", "job", "piece", "figure")),
    Column("made", Integer, nullable=False),
    *(Column(name, Text, nullable=False) for name in ("refused", "remark", "body")),
    CheckConstraint("what in ('record', 'reset')"),
)
"""One row for each record and each reset, only ever added. `at`: UTC, ISO 8601. `figure`: what was set back ("": all).

`body`: a record's told and foreseen figures with how they lean on the shop's, in SI units, as JSON (see `form`).
"""

STRUCK = Table(
    "day_book_struck",
    METADATA,
    Column("number", Integer, ForeignKey("day_book.number"), primary_key=True, autoincrement=False),
    *(Column(name, Text, nullable=False) for name in ("at", "who", "because")),
)
"""One row for each record that was struck, by its number: when (as `at` above), by whom, and why in words."""
