"""The day book: what really happened, and which figures were set back."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision: str | None = "0001"
branch_labels: str | None = None
depends_on: str | None = None

_NEVER = "a day book is only added to"


def upgrade() -> None:
    """Makes the table; the database itself refuses to change or drop a row of it."""
    op.create_table(
        "day_book",
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=True),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("at", "who", "what", "job", "piece", "figure")),
        sa.Column("made", sa.Integer, nullable=False),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("refused", "remark", "body")),
        sa.CheckConstraint("what in ('record', 'reset')"),
    )
    op.create_index("day_book_piece", "day_book", ["job", "piece", "number"])
    for done in ("UPDATE", "DELETE"):
        name = f"day_book_no_{done.lower()}"
        if op.get_bind().dialect.name == "sqlite":
            op.execute(f"CREATE TRIGGER {name} BEFORE {done} ON day_book BEGIN SELECT RAISE(ABORT, '{_NEVER}'); END")
        else:
            op.execute(f"CREATE TRIGGER {name} BEFORE {done} ON day_book FOR EACH ROW EXECUTE FUNCTION rack_never()")
