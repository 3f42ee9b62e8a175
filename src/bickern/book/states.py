"""Every state of a job file, kept in a log beside nothing of the user's: it only grows, and one line is one state.

A line holds what changed against the state before it (start, end, what was put there), every so often the whole text,
and a check of itself: a line torn by a crash is known by it, left out, and never takes with it what stands before.
"""

import json
import os
import re
import sys
import time
import zlib
from array import array
from bisect import bisect_left
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass, field
from hashlib import blake2b
from pathlib import Path
from typing import Any, BinaryIO

from bickern.measure.finding import Finding, Where, stop, warn

WHOLE_EVERY = 50
"""States that may stand on one another before a whole text is written again."""
PATIENCE = 0.5
"""Seconds that another program may hold the log before we go on in memory alone."""
_WAITING = (1 << 64) - 1
_BY_HAND = (KeyError, TypeError, ValueError, OverflowError)
"""What comes of a line that fits its check but does not tell what a line must: somebody wrote it by hand."""
_NAME_LENGTH = 40


@dataclass(frozen=True, slots=True)
class Kept:
    """What a line of the log says about a state.

    `at`: seconds since 1970. `step`: edits of one step are undone together; `joins`: it belongs to the step before it.
    `aside`: it never was the job's text, it is only kept. `to`: the state whose text `undo` and `redo` give again.
    """

    number: int
    at: float
    what: str
    who: str = ""
    step: str = ""
    joins: bool = False
    aside: bool = False
    to: int = 0


@dataclass(frozen=True, slots=True)
class News:
    """What the log holds that was not known here.

    `kept`: states that other programs added. `displaced`: our own that could not be written before those came, with
    their texts: their numbers are taken now. `anew`: the log was taken away, so nothing known of it holds.
    """

    kept: tuple[Kept, ...] = ()
    displaced: tuple[tuple[Kept, str], ...] = ()
    anew: bool = False


def states_folder() -> Path:
    """Where states are kept: in the user's data folder."""
    from platformdirs import user_data_path

    return user_data_path("bickern", appauthor=False) / "states"


def log_for(job: Path, folder: Path | None = None) -> Path:
    """The log of a job file, by its place on the disk; its stem is in the name so that a person finds it."""
    mark = blake2b(os.fsencode(job), digest_size=8).hexdigest()
    stem = re.sub(r"[^A-Za-z0-9-]+", "-", job.stem).strip("-")[:_NAME_LENGTH] or "job"
    return (folder or states_folder()) / f"{mark}-{stem}.states"


def difference(old: str, new: str) -> tuple[int, int, str]:
    """From where to where in the old text, and what stands there in the new one."""
    start = _same(old, new, min(len(old), len(new)), from_end=False)
    most = min(len(old), len(new)) - start
    end = _same(old, new, most, from_end=True)
    return start, len(old) - end, new[start : len(new) - end]


def _same(old: str, new: str, most: int, *, from_end: bool) -> int:
    """How many characters are the same, by halves: whole slices are compared in one go."""
    low, high = 0, most
    while low < high:
        half = (low + high + 1) // 2
        alike = old[len(old) - half :] == new[len(new) - half :] if from_end else old[:half] == new[:half]
        low, high = (half, high) if alike else (low, half - 1)
    return low


def write_whole(path: Path, data: bytes) -> Finding | None:
    """A file written whole under another name and then put in its place: nobody ever sees half of it.

    Its mode bits stay; a link is followed to the file it names. None where it went well.
    """
    target = path.resolve()
    beside = target.with_name(f".{target.name[:200]}.new")
    try:
        mode = target.stat().st_mode & 0o777 if target.exists() else 0o644
        with suppress(FileNotFoundError):
            beside.unlink()
        fd = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o600)
        try:
            _write_all(fd, data)
            if hasattr(os, "fchmod"):
                os.fchmod(fd, mode)
        finally:
            os.close(fd)
        beside.replace(target)
    except OSError as bad:
        with suppress(OSError):
            beside.unlink()
        return not_written(path, bad)
    return None


def not_written(path: Path, bad: OSError) -> Finding:
    """Said where the job file cannot be written."""
    says = f"`{path.name}` cannot be written ({bad.strerror or bad}); what you typed is still here"
    return warn("not-written", says, "make room or mend the folder: it is tried again at the next change",
                Where(path.name))  # fmt: skip


def _write_all(fd: int, data: bytes) -> None:
    left = memoryview(data)
    while left:
        left = left[os.write(fd, left) :]


def _line(record: dict[str, Any]) -> bytes:
    said = json.dumps(record, separators=(",", ":")).encode("ascii")
    return b"%08x %s\n" % (zlib.crc32(said), said)


def _said(line: bytes) -> dict[str, Any] | None:
    """What a line says, or None where it is torn or spoilt."""
    try:
        check, said = int(line[:8], 16), line[9:].rstrip(b"\n")
        record = json.loads(said.decode("ascii")) if zlib.crc32(said) == check else None
    except (ValueError, RecursionError):
        return None
    return record if isinstance(record, dict) else None


def _sum(text: str) -> int:
    return zlib.crc32(text.encode("utf-8", "surrogatepass"))


def _kept(record: dict[str, Any]) -> Kept:
    said = record.get
    return Kept(
        int(record["number"]), float(record["at"]), str(record["what"]), str(said("who", "")), str(said("step", "")),
        bool(said("joins")), bool(said("aside")), int(said("to", 0)),
    )  # fmt: skip


def _record(kept: Kept, text: str, of: int, old: str, deep: bool) -> dict[str, Any]:
    record: dict[str, Any] = {"number": kept.number, "at": round(kept.at, 3), "what": kept.what}
    more = {"who": kept.who, "step": kept.step, "joins": kept.joins, "aside": kept.aside, "to": kept.to}
    record.update({word: value for word, value in more.items() if value})
    start, end, put = difference(old, text)
    if not of or deep or len(put) > len(text) // 2:
        return {**record, "text": text, "sum": _sum(text)}
    return {**record, "of": of, "start": start, "end": end, "put": put, "sum": _sum(text)}


@dataclass(slots=True)
class StateLog:
    """The log of one job file. Change it only inside `held()`; reading needs no lock, as it only grows.

    `filed`: the newest state that is known to stand in the job file. `fault`: why the log cannot be written just now
    (states wait in memory and are tried again). Of each state only some 40 bytes are in memory: never its text.
    """

    path: Path
    filed: int = 0
    fault: Finding | None = None
    _fd: int = -1
    _writes: bool = False
    _end: int = 0
    _file: int = 0
    _numbers: "array[int]" = field(default_factory=lambda: array("Q"))
    _offsets: "array[int]" = field(default_factory=lambda: array("Q"))
    _deep: "array[int]" = field(default_factory=lambda: array("B"))
    _ats: "array[float]" = field(default_factory=lambda: array("d"))
    _says: "array[int]" = field(default_factory=lambda: array("I"))
    _words: dict[tuple[str, str], int] = field(default_factory=dict)
    _waiting: dict[int, bytes] = field(default_factory=dict)
    _unsure: bool = False

    @property
    def last(self) -> int:
        """The number of the newest state (0: there is none)."""
        return self._numbers[-1] if self._numbers else 0

    def __len__(self) -> int:
        return len(self._numbers)

    def about(self, most: int = 0) -> Iterator[tuple[int, float, str, str]]:
        """Number, time [s since 1970], what and who of the newest `most` states (0: of all), oldest first."""
        words = list(self._words)
        for number, at, said in zip(self._numbers[-most:], self._ats[-most:], self._says[-most:], strict=True):
            yield number, at, *words[said]

    @contextmanager
    def held(self) -> Iterator[None]:
        """Holds the log, so that no other program adds to it meanwhile."""
        self._open()
        try:
            if self._fd >= 0 and not _lock(self._fd):
                self.fault = _busy(self.path)
                self._writes = False
            yield
        finally:
            if self._fd >= 0:
                os.close(self._fd)  # lets the lock go, too
            self._fd = -1

    def _open(self) -> None:
        self.fault, self._writes = None, True
        try:
            self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            self._fd = os.open(self.path, os.O_RDWR | os.O_APPEND | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o600)
        except OSError as bad:
            self.fault, self._writes = _not_kept(self.path, bad), False
            if self.path.is_file():
                with suppress(OSError):
                    self._fd = os.open(self.path, os.O_RDONLY | getattr(os, "O_BINARY", 0))

    def news(self) -> News:
        """What others have written since we looked; to be asked for first inside `held()`."""
        if self._fd < 0:
            return News()
        now = os.fstat(self._fd)
        anew = bool(self._file) and (now.st_ino != self._file or now.st_size < self._end)
        self._file = now.st_ino
        if anew:
            self._forget()
        if now.st_size == self._end:
            return News(anew=anew)
        return self._read(now.st_size, anew)

    def _read(self, size: int, anew: bool) -> News:
        os.lseek(self._fd, self._end, os.SEEK_SET)
        data = b"".join(iter(lambda: os.read(self._fd, 1 << 20), b""))
        records = []
        for line in data.split(b"\n")[:-1]:
            records.append((self._end, _said(line)))
            self._end += len(line) + 1
        told = [(at, r) for at, r in records if r is not None and ("filed" in r or "number" in r)]
        displaced = self._displaced() if any("number" in r for _, r in told) else ()
        return News(tuple(k for at, r in told if (k := self._heard(at, r)) is not None), displaced, anew)

    def _heard(self, offset: int, record: dict[str, Any]) -> Kept | None:
        try:
            if "filed" in record:
                self.filed = int(record["filed"])
                return None
            kept, of = _kept(record), int(record.get("of", 0))
            if kept.number <= self.last:
                return None
            self._index(kept, offset, of)
        except _BY_HAND:
            return None
        return kept

    def _displaced(self) -> tuple[tuple[Kept, str], ...]:
        """States of ours that still wait: their numbers go to others now."""
        waiting = [r for line in self._waiting.values() if (r := _said(line)) is not None]
        kept = tuple((_kept(r), self.text_at(int(r["number"])) or "") for r in waiting)
        for column in (self._numbers, self._offsets, self._deep, self._ats, self._says):
            del column[len(column) - len(kept) :]
        self._waiting.clear()
        self.filed = min(self.filed, self.last)
        return kept

    def _forget(self) -> None:
        self._end, self.filed, self._unsure = 0, 0, False
        for column in (self._numbers, self._offsets, self._deep, self._ats, self._says):
            del column[:]
        self._waiting.clear()

    def _index(self, kept: Kept, offset: int, of: int) -> None:
        above = bisect_left(self._numbers, of)
        deep = self._deep[above] + 1 if of and above < len(self._numbers) else 0
        self._numbers.append(kept.number)
        self._offsets.append(offset)
        self._deep.append(min(deep, 255))
        self._ats.append(kept.at)
        self._says.append(self._words.setdefault((kept.what, kept.who), len(self._words)))

    def add(self, kept: Kept, text: str, of: int, old: str) -> None:
        """A state is added, told against the state `of` with its text `old` (0: told whole)."""
        above = bisect_left(self._numbers, of)
        deep = bool(of) and (above >= len(self._numbers) or self._deep[above] >= WHOLE_EVERY)
        record = _record(kept, text, of, old, deep)
        self._index(kept, _WAITING, int(record.get("of", 0)))
        self._waiting[kept.number] = _line(record)
        self._flush()

    def tried_again(self) -> None:
        """States that wait in memory are written now, where that can be done."""
        if self._waiting:
            self._flush()

    def file_holds(self, number: int) -> None:
        """Keeps that the job file holds that state now."""
        self.filed = number
        if self._writes and not self._waiting:
            try:
                self._append(_line({"filed": number}))
            except OSError as bad:
                self.fault = _not_kept(self.path, bad)

    def _flush(self) -> None:
        if not self._writes or self._fd < 0:
            return
        numbers, lines = list(self._waiting), list(self._waiting.values())
        try:
            offset = self._append(b"".join(lines))
        except OSError as bad:
            self.fault = _not_kept(self.path, bad)
            return
        for number, line in zip(numbers, lines, strict=True):
            self._offsets[bisect_left(self._numbers, number)] = offset
            offset += len(line)
        self._waiting.clear()

    def _append(self, data: bytes) -> int:
        """Where it begins in the file now. A line torn by a crash is closed first, so that its check fails for good."""
        size = os.lseek(self._fd, 0, os.SEEK_END)
        torn = b""
        if self._unsure or size != self._end:
            os.lseek(self._fd, max(size - 1, 0), os.SEEK_SET)
            torn = b"~\n" if size and os.read(self._fd, 1) != b"\n" else b""
        self._unsure = True
        _write_all(self._fd, torn + data)
        self._unsure = False
        self._end = size + len(torn) + len(data)
        return size + len(torn)

    def text_at(self, number: int) -> str | None:
        """The text of a state; None where there is no such state, or its lines are spoilt."""
        chain: list[dict[str, Any]] = []
        with ExitStack() as closes:
            lines = _Lines(self.path, closes)
            while not chain or "text" not in chain[-1]:
                record = self._record_of(number, lines)
                if record is None or len(chain) > 2 * WHOLE_EVERY:
                    return None
                chain.append(record)
                number = record.get("of", 0)
        try:
            return _followed(chain)
        except _BY_HAND:
            return None

    def _record_of(self, number: int, lines: "_Lines") -> dict[str, Any] | None:
        place = bisect_left(self._numbers, number) if isinstance(number, int) else len(self._numbers)
        if place >= len(self._numbers) or self._numbers[place] != number:
            return None
        waits = self._waiting.get(number)
        return _said(waits if waits is not None else lines.at(self._offsets[place]))

    def settle(self, job: Path) -> None:
        """Makes the disk itself hold what was written, the job file first (the log says that it holds it)."""
        for path in (job, job.parent, self.path):
            with suppress(OSError):
                fd = os.open(path, os.O_RDONLY)
                try:
                    os.fsync(fd)
                finally:
                    os.close(fd)

    def newest(self, most: int) -> tuple[int, ...]:
        """The numbers of the newest states, newest first."""
        return tuple(self._numbers[: -most - 1 : -1])

    def when(self) -> float:
        """When the newest state was made [s since 1970]; 0 where there is none."""
        return self._ats[-1] if self._ats else 0.0


@dataclass(slots=True)
class _Lines:
    """Lines of the log by where they begin; it is opened when the first one is asked for."""

    path: Path
    closes: ExitStack
    file: BinaryIO | None = None

    def at(self, offset: int) -> bytes:
        try:
            if self.file is None:
                self.file = self.closes.enter_context(self.path.open("rb"))
            self.file.seek(offset)
            return self.file.readline()
        except (OSError, OverflowError):
            return b""


def _followed(chain: list[dict[str, Any]]) -> str | None:
    """The text that the newest line of a chain gives; the last one holds a whole text."""
    text = ""
    for record in reversed(chain):
        text = str(record["text"]) if "text" in record else _put(text, record)
        if _sum(text) != record["sum"]:
            return None
    return text


def _put(text: str, record: dict[str, Any]) -> str:
    return text[: int(record["start"])] + str(record["put"]) + text[int(record["end"]) :]


def _lock(fd: int) -> bool:
    """Whether the log could be held; where locks are not known, programs only see each other by what they write."""
    if sys.platform == "win32":
        return True
    import fcntl

    until = time.monotonic() + PATIENCE
    while True:
        try:
            fcntl.flock(fd, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            if time.monotonic() > until:
                return False
            time.sleep(0.002)
        except OSError:
            return True
        else:
            return True


def _busy(path: Path) -> Finding:
    says = "another program holds the kept states of this job; what you typed is still here"
    return warn("states-busy", says, "it is tried again at the next change", Where(path.name))


def _not_kept(path: Path, bad: OSError) -> Finding:
    says = f"earlier states cannot be kept just now ({bad.strerror or bad}); they wait in memory"
    return warn("states-not-kept", says, "make room or mend the folder: it is tried again at the next change",
                Where(str(path.name)))  # fmt: skip


def text_of(data: bytes, name: str) -> str | Finding:
    """A job file's characters with plain line ends, or why it cannot be worked on."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as bad:
        says = f"`{name}` is not plain text (byte {bad.start + 1} cannot be read as UTF-8)"
        return stop("not-text", says, "save it as plain text, UTF-8", Where(name))
    return text.replace("\r\n", "\n").replace("\r", "\n")


def bytes_of(text: str, like: bytes) -> bytes:
    """The text as a file, with the line ends and the mark at the head that the file had."""
    if like.count(b"\r\n") * 2 > like.count(b"\n"):
        text = text.replace("\n", "\r\n")
    return (b"\xef\xbb\xbf" if like.startswith(b"\xef\xbb\xbf") else b"") + text.encode("utf-8")
