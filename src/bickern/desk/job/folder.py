"""The folder of the jobs: which there are, opened, begun, and dropped in; nothing outside it, nothing overwritten."""

import os
import re
import threading
import unicodedata
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from bickern.book.files import read_file
from bickern.book.job.print import quoted
from bickern.book.outline.read import LARGEST as LARGEST_OUTLINE
from bickern.book.text import LARGEST, Group, decode, read_page
from bickern.desk.job.new import examples, title_of
from bickern.desk.job.open_job import OpenJob, open_job
from bickern.measure.finding import Finding, Where, stop

JOBS = (".yaml", ".yml")
"""Endings of job files."""
DRAWINGS = (".dxf", ".svg")
"""Endings of the drawings that a job may name."""
LONGEST_NAME = 80
"""Characters in the name of a file (our choice; file systems take 255 bytes)."""
MOST_LISTED = 500
"""Jobs told of at once: the newest."""
_TAKEN = 1000

_NEVER = re.compile(r'[/\\:*?"<>|\x00-\x1f\x7f]')
_DEVICES = re.compile(r"(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(\..*)?", re.IGNORECASE)
"""Names that mean a device on some machines, whatever stands behind the dot."""


@dataclass(frozen=True, slots=True)
class JobFile:
    """One job in the folder: its file's name, its title, when it was last changed [s since 1970], bytes, pieces."""

    name: str
    title: str
    when: float
    size: int
    pieces: int


@dataclass(slots=True)
class JobFolder:
    """The jobs in one folder. `states`: where earlier states are kept (None: in the user's data folder)."""

    folder: Path
    states: Path | None = None
    _open: dict[str, OpenJob] = field(default_factory=dict)
    _known: dict[str, tuple[int, JobFile | None]] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def jobs(self) -> tuple[JobFile, ...]:
        """All jobs, those changed last first. A file that a fault keeps from being read is a job, too."""
        found = sorted(self._files(), key=lambda f: (-f[1].st_mtime_ns, f[0]))[:MOST_LISTED]
        self._known = {name: self._known[name] for name, _ in found if name in self._known}
        told = [self._told(name, stat) for name, stat in found]
        return tuple(job for job in told if job is not None)

    def _files(self) -> list[tuple[str, os.stat_result]]:
        found = []
        with suppress(OSError), os.scandir(self.folder) as entries:
            for entry in entries:
                if entry.name.lower().endswith(JOBS) and isinstance(self.path(entry.name), Path):
                    with suppress(OSError):
                        if entry.is_file():
                            found.append((entry.name, entry.stat()))
        return found

    def _told(self, name: str, stat: os.stat_result) -> JobFile | None:
        """What is told of a file; read again only when it has changed. None for a shop file."""
        known = self._known.get(name)
        if known is not None and known[0] == stat.st_mtime_ns:
            return known[1]
        job = _job_file(self.folder / name, stat)
        self._known[name] = (stat.st_mtime_ns, job)
        return job

    def path(self, name: str) -> Path | Finding:
        """The place of a job file of that name; a name that leads out of the folder is refused."""
        fault = _leads_out(name)
        if fault is not None:
            return fault
        if not name.lower().endswith(JOBS):
            return stop("not-a-job", f"`{_short(name)}` is not the name of a job file", "its name ends in .yaml")
        return self._inside(name)

    def _inside(self, name: str) -> Path | Finding:
        try:
            home, path = self.folder.resolve(), (self.folder / name).resolve()
        except (OSError, ValueError, RuntimeError):
            return _no_name(name)
        if not path.is_relative_to(home):
            return stop(
                "outside-folder", f"`{_short(name)}` is outside the folder of the jobs", "put it into the folder"
            )
        return self.folder / name

    def open(self, name: str) -> OpenJob | Finding:
        """The job, open: the same one for everybody who asks."""
        path = self.path(name)
        if isinstance(path, Finding):
            return path
        with self._lock:
            there = self._open.get(name)
            if there is not None and path.is_file() and path.resolve() == there.path:
                return there
            job = open_job(path, self.states)
            if isinstance(job, OpenJob):
                self._open[name] = job
            return job

    def new(self, example: str | None, name: str = "", *, units: str = "in") -> str | Finding:
        """A new job from an example (None: a blank one to begin from): the name of its file.

        A name that is taken gets ` 2` behind it. `units`: what bare numbers of a blank job mean, in or mm.
        """
        known = {e.name: e.text for e in examples()}
        if example is not None and example not in known:
            return stop("unknown-example", f"there is no example “{_short(example)}”", f"there are: {', '.join(known)}")
        said = name.strip() or example or "new job"
        file = _as_file_name(said)
        fault = bad_name(file)
        if fault is not None:
            return fault
        text = known[example] if example is not None else blank(_stem(said), units)
        return self._write(file, text.encode())

    def drop(self, name: str, data: bytes) -> str | Finding:
        """A file handed in: a job (faults in it may be mended later), or a drawing that a job names; its name here."""
        name = unicodedata.normalize("NFC", name)
        fault = bad_name(name, JOBS + DRAWINGS) or _bad_content(name, data)
        if fault is not None:
            return fault
        there = self.folder / name
        if isinstance(self._inside(name), Path) and there.is_file() and read_file(there, len(data)) == data:
            return name
        return self._write(name, data)

    def _write(self, name: str, data: bytes) -> str | Finding:
        """Into a file that was not there before."""
        stem, _, ending = name.rpartition(".")
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            for number in range(1, _TAKEN):
                free = name if number == 1 else f"{stem} {number}.{ending}"
                with suppress(FileExistsError):
                    _write_new(self.folder / free, data)
                    return free
        except OSError as bad:
            says = f"`{name}` cannot be written ({bad.strerror or bad})"
            return stop("not-written", says, "make room, or mend the folder of the jobs", Where(name))
        return stop("file-there", f"`{name}` is there already, many times over", "give another name", Where(name))


def blank(title: str, units: str = "in") -> str:
    """A small job to begin from, with remarks for somebody who never wrote one."""
    size, length, bare = ("12 mm sq", "200", "millimetres") if units == "mm" else ("1/2 sq", "8", "inches")
    return f"""\
# A job is one text file. What stands behind a # is a remark: change all of it as you like.
job: {quoted(title)}
units: {"mm" if units == "mm" else "in"}            # a bare number means {bare}

pieces:
  piece:             # its name: hook, arm, leg ...
    bar: {size}     # what it is made from
    metal:           # along the finished bar, from one end to the other
      - {{keep: {length}}}    # left as it is, so long
"""


def bad_name(name: str, endings: tuple[str, ...] = JOBS) -> Finding | None:
    """Why a new file cannot have this name, on this machine or on another one; None where it can."""
    said = f"`{_short(name)}`"
    sign = _NEVER.search(name)
    if sign is not None:
        return stop("bad-name", f"{said} has a `{_short(sign.group())}` in it, which no file name can have everywhere",
                    "leave it out")  # fmt: skip
    fault = _leads_out(name)
    if fault is not None:
        return fault
    if not name.lower().endswith(endings):
        return stop("not-a-job", f"{said} cannot be taken", f"files that can: {', '.join(endings)}")
    if len(name) > LONGEST_NAME:
        return stop("long-name", f"the name {said} has {len(name)} characters", f"at most {LONGEST_NAME} will do")
    if _DEVICES.fullmatch(name) or _stem(name) != _stem(name).strip(" ."):
        return stop("bad-name", f"some machines cannot keep a file with the name {said}", "give another name")
    return None


def _leads_out(name: str) -> Finding | None:
    """A name that is more than the name of one file, or hides what it is."""
    plain = bool(name) and not any(sign in name for sign in "/\\\x00") and name not in (".", "..")
    if not plain or name.startswith((".", "~")) or any(_hidden(sign) for sign in name):
        return _no_name(name)
    try:
        too_long = len(name.encode()) > 250
    except UnicodeEncodeError:
        return _no_name(name)
    return (
        stop("long-name", "this name is too long", f"at most {LONGEST_NAME} characters will do") if too_long else None
    )


def _hidden(sign: str) -> bool:
    """Signs that are not seen, turn the writing round, or are none."""
    return unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")


def _no_name(name: str) -> Finding:
    return stop("bad-name", f"`{_short(name)}` is not the name of a job file", "give a name such as hook.yaml")


def _short(name: str) -> str:
    return "".join("·" if _hidden(sign) else sign for sign in name[:60])


def _stem(name: str) -> str:
    return name.rpartition(".")[0] if name.lower().endswith(JOBS + DRAWINGS) else name


def _as_file_name(said: str) -> str:
    said = unicodedata.normalize("NFC", said)
    return said if said.lower().endswith(JOBS) else f"{said}.yaml"


def _bad_content(name: str, data: bytes) -> Finding | None:
    """A job must be text that can be read; a drawing must be text, too: nothing that could run."""
    drawing = name.lower().endswith(DRAWINGS)
    largest = LARGEST_OUTLINE if drawing else LARGEST
    if len(data) > largest:
        says = f"`{name}` is {len(data) / 1e6:.1f} MB, more than the {largest / 1e6:.0f} MB that it may be"
        return stop("too-large", says, "is it the right file?", Where(name))
    if not drawing:
        return decode(data, name)[1]
    if b"\x00" in data or not data.strip():
        return stop("not-text", f"`{name}` is not a drawing in text", "save it as a plain DXF or SVG", Where(name))
    return None


def _write_new(path: Path, data: bytes) -> None:
    """All of it, or no file."""
    with path.open("xb") as file:
        try:
            file.write(data)
            file.flush()
        except OSError:
            path.unlink(missing_ok=True)
            raise


def _job_file(path: Path, stat: os.stat_result) -> JobFile | None:
    data = read_file(path, LARGEST)
    text = data.decode("utf-8", "replace") if isinstance(data, bytes) else ""
    top = read_page(data, path.name).top if isinstance(data, bytes) else None
    if top is not None and top.get("shop") is not None and top.get("job") is None and top.get("pieces") is None:
        return None
    pieces = top.get("pieces") if top is not None else None
    count = len(pieces.entries) if isinstance(pieces, Group) else 0
    title = title_of(text)
    named = title if any(sign.isalnum() for sign in title) else path.stem
    return JobFile(path.name, named, stat.st_mtime, stat.st_size, count)
