"""How old a rack is, told by the last step that made its tables, and what brings it up to date."""

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bickern.book.database.engine import OURS
from bickern.book.database.faults import not_ours, too_new
from bickern.measure.finding import Finding

if TYPE_CHECKING:
    from sqlalchemy import Connection

FOLDER = Path(__file__).parent / "migrations"
TABLE = "bickern_step"
"""Holds the last step, by its number."""
_LOCK = 7593082
"""PostgreSQL's lock for bringing a rack up to date, a number of our own: one does it, the others wait."""


@cache
def steps() -> tuple[str, ...]:
    """The numbers of all steps, in order, from the names of their files."""
    return tuple(sorted(file.name[1:5] for file in FOLDER.glob("m[0-9][0-9][0-9][0-9]_*.py")))


def step_of(connection: "Connection") -> str:
    """The last step that a database has seen; "" for one that is no rack yet."""
    from sqlalchemy import inspect, text

    if not inspect(connection).has_table(TABLE):
        return ""
    return str(connection.execute(text(f"SELECT version_num FROM {TABLE}")).scalar() or "")


def wrong_age(connection: "Connection", name: str) -> Finding | None:
    """Why a database cannot be a rack of ours, or of a bickern as old as this one."""
    step = step_of(connection)
    if step and step not in steps():
        return too_new(name, step)
    return not_ours(name) if not step and _of_others(connection) else None


def _of_others(connection: "Connection") -> bool:
    """A file with tables of another program; on a server, others may well have theirs beside ours."""
    from sqlalchemy import inspect

    if connection.dialect.name != "sqlite":
        return bool(inspect(connection).has_table("rack_piece"))
    marked = connection.exec_driver_sql("PRAGMA application_id").scalar()
    return marked not in (0, OURS) or bool(inspect(connection).get_table_names())


def bring_up_to_date(connection: "Connection", name: str) -> Finding | None:
    """Takes every step that is missing, inside the transaction that is open; somebody else may have been faster."""
    from sqlalchemy import text

    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _LOCK})
    wrong = wrong_age(connection, name)
    if wrong is not None or step_of(connection) == steps()[-1]:
        return wrong
    _take_steps(connection)
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql(f"PRAGMA application_id = {OURS}")
    return None


def _take_steps(connection: "Connection") -> None:
    from alembic.config import Config
    from alembic.runtime.environment import EnvironmentContext
    from alembic.script import ScriptDirectory

    config = Config()
    for word in ("script_location", "version_locations"):
        config.set_main_option(word, str(FOLDER).replace("%", "%%"))
    config.set_main_option("path_separator", "newline")
    script = ScriptDirectory.from_config(config)

    def missing(step: Any, _: Any) -> Any:
        return script._upgrade_revs("heads", step)  # alembic's own `upgrade` command does this very thing

    with EnvironmentContext(config, script, fn=missing, destination_rev="heads") as steps_taken:
        steps_taken.configure(connection=connection, version_table=TABLE)
        steps_taken.run_migrations()
