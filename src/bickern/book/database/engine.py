"""How each database is spoken to. What is committed must be on the disk, and a change is seen whole or not at all."""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from sqlalchemy import URL, Connection, Engine

PATIENCE = 10.0
"""Seconds that one who changes the rack waits for another (choice of ours)."""
OURS = 0x6269636B
"""Written into the head of an SQLite file: it is a rack ("bick")."""
_CHANGES = "changes"


def file_engine(path: str, patience: float = PATIENCE) -> "Engine":
    """SQLite in one file.

    A rollback journal and not a write-ahead log: the log needs memory that all who have the file open share, which a
    folder on a network does not give. EXTRA: the folder too is written through when the journal goes, so that what was
    committed stays committed when the power fails (sqlite.org, PRAGMA synchronous; from memory).
    """
    from sqlalchemy import URL, NullPool, create_engine, event

    engine = create_engine(URL.create("sqlite", database=path), poolclass=NullPool, connect_args={"timeout": patience})

    @event.listens_for(engine, "connect")
    def _opened(connection: Any, _: object) -> None:
        connection.isolation_level = None  # transactions begin where we say so, and nowhere else
        for word in ("foreign_keys = ON", "journal_mode = DELETE", "synchronous = EXTRA"):
            connection.execute(f"PRAGMA {word}")

    @event.listens_for(engine, "begin")
    def _begun(connection: "Connection") -> None:
        now = connection.get_execution_options().get(_CHANGES, False)
        # who means to write says so at once: two who first read and then write could each wait for the other
        connection.exec_driver_sql("BEGIN IMMEDIATE" if now else "BEGIN")

    return engine


def server_engine(url: "URL", patience: float = PATIENCE) -> "Engine":
    """PostgreSQL. Others are waited for as long as in a file; a connection that has died is noticed.

    What the address itself tells the server (`?options=...`) is told it as well.
    """
    from sqlalchemy import create_engine

    told = url.query.get("options", "")
    own = [told] if isinstance(told, str) else list(told)
    said = [*own, f"-c lock_timeout={int(patience * 1000)}", "-c synchronous_commit=on", "-c client_encoding=UTF8"]
    words = {"options": " ".join(said), "connect_timeout": max(2, int(patience))}
    plain = url.difference_update_query(["options"])
    return create_engine(plain, pool_pre_ping=True, pool_size=2, connect_args=words)


def connected(engine: "Engine", *, changes: bool) -> "Connection":
    """A connection, for a change or only to look.

    Who only looks at a server sees all of it as of one moment, however many words that takes; a file does so anyway.
    """
    asked: dict[str, Any] = {_CHANGES: changes}
    if not changes and engine.dialect.name == "postgresql":
        asked |= {"isolation_level": "REPEATABLE READ", "postgresql_readonly": True}
    return engine.connect().execution_options(**asked)
