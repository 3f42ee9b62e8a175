"""What a cut plan was made from: whether a job, or the shop file, is another now than when it was planned."""

import hashlib
from collections.abc import Iterable, Mapping
from pathlib import Path

from bickern.book.files import read_file
from bickern.book.text import LARGEST
from bickern.measure.finding import Finding, Where, stop

SeenFiles = Mapping[Path, str]
"""File -> what it held, as a short sum; "" where it could not be read."""


def seen_now(files: Iterable[Path | None]) -> SeenFiles:
    """What these files hold now."""
    return {path: _sum(path) for path in files if path is not None}


def _sum(path: Path) -> str:
    data = read_file(path, LARGEST)
    return "" if isinstance(data, Finding) else hashlib.sha256(data).hexdigest()


def changed_since(seen: SeenFiles) -> tuple[Finding, ...]:
    """A stop for each file that was changed after the plan was made: what it says now may want other cuts."""
    says = "{} was changed after this was planned: what is cut by the plan may be wrong now"
    return tuple(
        stop("changed-since-planned", says.format(path.name), "plan again", Where(path.name))
        for path, was in seen.items()
        if _sum(path) != was
    )
