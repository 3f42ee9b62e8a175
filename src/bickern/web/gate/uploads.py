"""What is brought in by a browser, read as if it meant harm: its size, its name, its ending, how many at once.

Nothing is written here, and no name that a browser sends becomes a path: it is only ever a plain name for a person.
"""

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from bickern.measure.finding import Finding, stop
from bickern.web.gate.guard import UPLOAD_MOST

JOBS = (".yaml", ".yml")
"""Endings of job files."""
LISTS = (".csv",)
"""Endings of a list of stock."""
OUTLINES = (".dxf", ".svg")
"""Endings of drawn outlines."""
AT_ONCE = 10
"""Files taken in together."""
LETTERS = 100
"""Signs of a name; every file system holds so many, even where each takes two bytes."""
KEPT_BACK = frozenset({"con", "prn", "aux", "nul"} | {f"{port}{n}" for port in ("com", "lpt") for n in range(10)})
"""Names that are no files on Windows, whatever their ending."""


class Sent(Protocol):
    """A file as the web framework hands it over."""

    name: str

    def size(self) -> int:
        """Bytes."""

    async def read(self) -> bytes:
        """All of it."""


@dataclass(frozen=True, slots=True)
class Upload:
    """A file that was taken in: a plain name with a known ending, and what it holds."""

    name: str
    data: bytes


async def taken_in(sent: Sent, ends: Sequence[str], most: int = UPLOAD_MOST) -> Upload | Finding:
    """One file that a browser sent; `ends`: endings that are read here (small letters), `most`: bytes."""
    name = plain_name(sent.name, ends)
    if isinstance(name, Finding):
        return name
    if sent.size() > most:
        return _too_large(name, most)
    data = await sent.read()
    if len(data) > most:
        return _too_large(name, most)
    return Upload(name, data) if data else stop("empty-file", f"{name} is empty", "choose the file that was meant")


async def all_taken_in(sent: Sequence[Sent], ends: Sequence[str], most: int = UPLOAD_MOST) -> list[Upload | Finding]:
    """Files that were sent together, each taken in or refused; of too many none is read."""
    if len(sent) > AT_ONCE:
        return [stop("too-many-files", f"{len(sent)} files at once", f"send no more than {AT_ONCE} together")]
    return [await taken_in(one, ends, most) for one in sent]


def plain_name(sent: str, ends: Sequence[str]) -> str | Finding:
    """The name of a file without any folder, fit for every file system; or why it will not do.

    A browser sends the name alone. Where a path comes, somebody tries something: it is refused, not shortened.
    """
    name = unicodedata.normalize("NFC", sent).strip()
    stem, dot, end = name.rpartition(".")
    if not _is_plain(name) or stem.partition(".")[0].casefold().strip() in KEPT_BACK:
        return stop("bad-file-name", f"“{_shown(name)}” is no plain name for a file", "give it letters and digits")
    if not dot or f".{end}".casefold() not in ends:
        return stop("bad-file-end", f"{name} is not read here", f"send a file that ends in {' or '.join(ends)}")
    return name


def _is_plain(name: str) -> bool:
    """Signs that show, none that is a path on some system, no dot in front (hidden) and no ending that is cut off."""
    shows = all(c.isprintable() for c in name)
    return bool(name) and len(name) <= LETTERS and shows and not set(name) & set('/\\:*?"<>|') and name[0] not in ".-~"


def _shown(name: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in name[:60])


def _too_large(name: str, most: int) -> Finding:
    says = f"{name} is larger than what is taken in ({most / 2**20:g} MB)"
    return stop("file-too-large", says, "check that it is the file that was meant")
