"""The rack: pieces of stock, their history, and the numbers given out."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision: str | None = None
branch_labels: str | None = None
depends_on: str | None = None

_NEVER = "a history is only added to"


def upgrade() -> None:
    """Makes the tables."""
    _make_pieces()
    _make_changes()
    counter = op.create_table(
        "rack_counter",
        sa.Column("kind", sa.Text, primary_key=True),
        sa.Column("last", sa.Integer, nullable=False),
    )
    op.bulk_insert(counter, [{"kind": "bar", "last": 0}, {"kind": "sheet", "last": 0}])
    _keep_the_history()


def _make_pieces() -> None:
    op.create_table(
        "rack_piece",
        sa.Column("id", sa.Text, primary_key=True),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("gone", sa.Text, nullable=False),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("shape", "outline", "gauge")),
        *(sa.Column(name, sa.Float(53), nullable=False) for name in ("width", "thick", "wall", "fullness", "length")),
        sa.Column("grain", sa.Float(53)),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("steel", "coating", "place", "price", "currency")),
        sa.Column("offcut", sa.Integer, nullable=False),
        sa.Column("of", sa.Text, sa.ForeignKey("rack_piece.id")),
        sa.Column("remark", sa.Text, nullable=False),
        sa.UniqueConstraint("kind", "number"),
        sa.CheckConstraint("kind in ('bar', 'sheet')"),
        sa.CheckConstraint("version > 0"),
    )
    op.create_index("rack_piece_there", "rack_piece", ["gone", "kind", "number"])


def _make_changes() -> None:
    op.create_table(
        "rack_change",
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=True),
        sa.Column("piece", sa.Text, sa.ForeignKey("rack_piece.id"), nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("at", "who", "what", "says")),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("fields", "jobs", "cuts")),
        sa.UniqueConstraint("piece", "version"),
    )


def _keep_the_history() -> None:
    """The database itself refuses to change or drop a row of the history, or to drop a piece."""
    refused = (("rack_change", "UPDATE"), ("rack_change", "DELETE"), ("rack_piece", "DELETE"))
    if op.get_bind().dialect.name == "sqlite":
        for table, done in refused:
            op.execute(
                f"CREATE TRIGGER {table}_no_{done.lower()} BEFORE {done} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, '{_NEVER}'); END"
            )
        return
    op.execute(
        f"CREATE FUNCTION rack_never() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION '{_NEVER}'; END $$"
    )
    for table, done in refused:
        op.execute(
            f"CREATE TRIGGER {table}_no_{done.lower()} BEFORE {done} ON {table} "
            "FOR EACH ROW EXECUTE FUNCTION rack_never()"
        )
