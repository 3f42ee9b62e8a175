"""Files by name: what may be opened, how large, and where from."""

from collections.abc import Callable
from pathlib import Path

from bickern.measure.finding import Finding, Where, stop

Fetch = Callable[[str], bytes | Finding]
"""Gives the bytes of a file named in a job, or the finding that says why not."""


def read_file(path: Path, largest: int = 1_000_000) -> bytes | Finding:
    """The bytes of a file; its size is looked at first, so that a huge file costs nothing."""
    where = Where(str(path))
    try:
        if not path.is_file():
            return stop("no-file", f"there is no file `{path.name}`", "look at its name and folder", where)
        size = path.stat().st_size
        if size > largest:
            return stop("too-large", f"`{path.name}` is {size / 1e6:.1f} MB, more than the {largest / 1e6:.0f} MB "
                        "that a file of this kind may be", "is it the right file?", where)  # fmt: skip
        with path.open("rb") as opened:
            data = opened.read(largest + 1)
    except (OSError, ValueError) as bad:
        # ValueError: a name with a zero byte in it
        return stop("no-file", f"the file cannot be opened ({getattr(bad, 'strerror', None) or bad})", "", where)
    return data if len(data) <= largest else stop("too-large", f"`{path.name}` is too large", "", where)


def beside(folder: Path, largest: int = 5_000_000) -> Fetch:
    """A `Fetch` for names told in a file in that folder: they may not lead out of it."""
    home = folder.resolve()

    def fetch(name: str) -> bytes | Finding:
        try:
            path = (home / name).resolve()
        except (OSError, ValueError, RuntimeError):
            return stop("no-file", "this is not the name of a file", "give a name such as leaf.dxf")
        if Path(name).is_absolute() or not path.is_relative_to(home):
            return stop(
                "outside-folder", f"`{name}` is outside the folder of the job file", "put it beside the job file"
            )
        return read_file(path, largest)

    return fetch


def no_files(name: str) -> bytes | Finding:
    """A `Fetch` where no files can be had, such as a job typed into a page."""
    return stop("no-file", f"`{name}` cannot be opened from here", "give the outline as points")
