"""What was ticked off at the anvil, and noted: a line a press, added at the end of a file of each job.

Nothing is ever changed or taken out. A line that was torn, by a power cut say, is left out, and harms no other.
"""

import json
import os
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path
from typing import Any

from bickern.measure.finding import Finding, Where, note, stop, warn

LARGEST = 20_000_000
"""Bytes of such a file that are read: ten years of presses; of a larger one the last so many."""
LONGEST = 2000
"""Letters of a note that are kept."""
LONGEST_DRAFT = 10_000
"""Letters of a draft that are kept: a longer one is not begun to be kept."""
WHAT = ("tick", "untick", "note", "pull", "draft", "anew")
"""What a line can be: a card ticked off for one copy, or not after all; a note to a card; an iron pulled out of the
fire; what is filled in of a piece, and not in the day book yet; and that the job is begun anew, so that what stands
before speaks of an earlier making."""


@dataclass(frozen=True, slots=True)
class Line:
    """One press: `what` (one of `WHAT`), of which card (`key`) and copy (from 1; 0 of none), when (UTC), by whom.

    `says`: what the card was called then, so that it can be told when there is no such card any more. `piece`: whose it
    was. `text`: the note.
    """

    what: str
    key: str = ""
    copy: int = 0
    piece: str = ""
    says: str = ""
    text: str = ""
    at: str = ""
    who: str = ""


@dataclass(frozen=True, slots=True)
class Pressed:
    """All lines in order, and what was found."""

    lines: tuple[Line, ...] = ()
    findings: tuple[Finding, ...] = ()


def ticks_file(job: Path) -> Path:
    """Where the ticks of a job file are kept: in the user's data folder, by the place where the job really lies."""
    from platformdirs import user_data_path

    real = os.path.realpath(job)
    plain = re.sub(r"[^a-z0-9]+", "-", Path(real).stem.lower()).strip("-")[:40]
    name = f"{plain or 'job'}-{sha256(real.encode('utf-8', 'surrogateescape')).hexdigest()[:16]}.jsonl"
    return user_data_path("bickern", appauthor=False) / "ticks" / name


def add_line(job: Path, line: Line) -> Line | Finding:
    """Adds a line, written through to the disk; it comes back with its hour.

    It begins on a line of its own, whatever a torn one before it has left: a line is written at one go, so that several
    windows and programs can add to one file.
    """
    kept = Line(**(asdict(line) | {"at": line.at or datetime.now(UTC).isoformat(timespec="seconds")}))
    body = {name: value for name, value in asdict(kept).items() if value}
    most = LONGEST_DRAFT if kept.what == "draft" else LONGEST
    data = f"\n{json.dumps(body | {'text': kept.text[:most]}, ensure_ascii=True)}\n".encode()
    path = ticks_file(job)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        there = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600)
        try:
            written = os.write(there, data)
            os.fsync(there)
        finally:
            os.close(there)
    except OSError as fault:
        return _not_kept(path, fault.strerror or str(fault))
    return kept if written == len(data) else _not_kept(path, "the disk is full")


def read_lines(job: Path) -> Pressed:
    """All that was pressed for a job so far; nothing where nothing was."""
    path = ticks_file(job)
    try:
        with path.open("rb") as opened:
            size = opened.seek(0, os.SEEK_END)
            opened.seek(max(0, size - LARGEST))
            data = opened.read(LARGEST)
    except FileNotFoundError:
        return Pressed()
    except OSError as fault:
        says = f"what was ticked off cannot be read ({fault.strerror or fault})"
        return Pressed((), (warn("ticks-not-read", says, "look at the folder that it lies in", Where(path.name)),))
    told = [row for row in data.split(b"\n") if row.strip()]
    read = [one for row in told if (one := _line(row)) is not None]
    return Pressed(tuple(read), _left_out(len(told) - len(read), path))


def _left_out(torn: int, path: Path) -> tuple[Finding, ...]:
    if not torn:
        return ()
    many = "a line" if torn == 1 else f"{torn} lines"
    says = f"of what was ticked off, {many} cannot be read: left out"
    return (note("tick-torn", says, "look whether a tick is missing; tick it again", Where(path.name)),)


def _line(row: bytes) -> Line | None:
    """A line as it was written; None for one that was torn, or that is none of ours."""
    try:
        told: Any = json.loads(row)
    except ValueError:
        return None
    if not isinstance(told, Mapping) or told.get("what") not in WHAT:
        return None
    words = {one.name: told.get(one.name, "") for one in fields(Line) if one.name != "copy"}
    copy = told.get("copy", 0)
    if not all(isinstance(says, str) for says in words.values()) or not isinstance(copy, int) or isinstance(copy, bool):
        return None
    return Line(**words, copy=copy)


def _not_kept(path: Path, why: str) -> Finding:
    says = f"this was not kept: it cannot be written ({why})"
    return stop("tick-not-kept", says, f"is the disk full, or the folder closed to you? {path.parent.name}")
