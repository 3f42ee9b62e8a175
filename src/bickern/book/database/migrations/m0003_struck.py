"""Records of the day book that were struck: one row each, beside the record, which stays as it is."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision: str | None = "0002"
branch_labels: str | None = None
depends_on: str | None = None

_NEVER = "a day book is only added to"


def upgrade() -> None:
    """Makes the table; its key lets a record be struck once, and the database refuses to change or drop a row of it."""
    op.create_table(
        "day_book_struck",
        sa.Column("number", sa.Integer, sa.ForeignKey("day_book.number"), primary_key=True, autoincrement=False),
        *(sa.Column(name, sa.Text, nullable=False) for name in ("at", "who", "because")),
    )
    for done in ("UPDATE", "DELETE"):
        name, on = f"day_book_struck_no_{done.lower()}", f"BEFORE {done} ON day_book_struck"
        if op.get_bind().dialect.name == "sqlite":
            op.execute(f"CREATE TRIGGER {name} {on} BEGIN SELECT RAISE(ABORT, '{_NEVER}'); END")
        else:
            op.execute(f"CREATE TRIGGER {name} {on} FOR EACH ROW EXECUTE FUNCTION rack_never()")
