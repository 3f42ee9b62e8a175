"""Rows of the history: one for each version of each piece, written in the same transaction as the piece."""

import json
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from bickern.book.database.work import moment
from bickern.book.rack.rows import COLUMNS, clean, row_of
from bickern.making.stock.rack import Stock

if TYPE_CHECKING:
    from sqlalchemy import Connection

LETTER = {"bar": "B", "sheet": "S"}
"""What a number is painted behind."""


def entry(
    piece: str,
    version: int,
    what: str,
    who: str,
    *,
    says: str = "",
    fields: Mapping[str, Any] | None = None,
    jobs: Sequence[str] = (),
    cuts: Sequence[str] = (),
) -> dict[str, Any]:
    """One row of the history, without its moment."""
    return {
        "piece": piece,
        "version": version,
        "who": clean(who),
        "what": what,
        "says": clean(says),
        "fields": json.dumps(dict(fields or {}), separators=(",", ":")),
        "jobs": json.dumps([clean(job) for job in jobs], ensure_ascii=False),
        "cuts": json.dumps([clean(cut) for cut in cuts], ensure_ascii=False),
    }


def write(connection: "Connection", rows: Sequence[dict[str, Any]]) -> None:
    """Adds rows to the history, all of one moment."""
    from bickern.book.database.tables import CHANGE

    if rows:
        at = moment()
        connection.execute(CHANGE.insert(), [{**row, "at": at} for row in rows])


def put_in(connection: "Connection", pieces: Sequence[Stock], what: str, who: str, says: str = "") -> tuple[str, ...]:
    """New pieces with new ids and the first row of their histories; the ids in the order of the pieces."""
    from bickern.book.database.tables import PIECE

    rows = [row_of(piece) for piece in pieces]
    numbers = {kind: _numbers(connection, kind, sum(r["kind"] == kind for r in rows)) for kind in LETTER}
    for row in rows:
        row["number"] = numbers[row["kind"]].pop(0)
        row["id"] = f"{LETTER[row['kind']]}{row['number']}"
        row["version"] = 1
    if rows:
        connection.execute(PIECE.insert(), rows)
    write(connection, [_first(row, what, who, says) for row in rows])
    return tuple(row["id"] for row in rows)


def _first(row: Mapping[str, Any], what: str, who: str, says: str) -> dict[str, Any]:
    fields = {name: row[name] for name in COLUMNS if name not in ("id", "version")}
    return entry(row["id"], 1, what, who, says=says or (f"of {row['of']}" if row["of"] else ""), fields=fields)


def _numbers(connection: "Connection", kind: str, count: int) -> list[int]:
    """The next numbers of a kind, never given before; others who want some wait until this change is through."""
    from bickern.book.database.tables import COUNTER

    if not count:
        return []
    given = COUNTER.update().where(COUNTER.c.kind == kind).values(last=COUNTER.c.last + count)
    last: int = connection.execute(given.returning(COUNTER.c.last)).scalar_one()
    return list(range(last - count + 1, last + 1))
