"""A job reckoned by what this shop has: bars that it leaves open chosen from the rack, figures from the day book."""

from dataclasses import replace
from pathlib import Path

from bickern.desk.reckon import Reckoning, reckon_file, reckon_job
from bickern.desk.stock.any_bar import chosen, leaves_open
from bickern.measure.finding import Finding


def reckoned_by(
    path: Path, shop_path: Path | None = None, where: str | Path | None = None, *, own: bool = False
) -> Reckoning:
    """A job file reckoned by the rack at `where` (None: this smith's own), opened only where a bar is left to it.

    `own`: by the figures of the day book that lies beside it.
    """
    return by_what_is_there(reckon_file(path, shop_path), where, own=own)


def by_what_is_there(done: Reckoning, where: str | Path | None = None, *, own: bool = False) -> Reckoning:
    """The same of a job already reckoned."""
    if own:
        done = by_own_figures(done, where)
    if not leaves_open(done):
        return done
    from bickern.desk.rack.rack import rack_at

    rack, found = rack_at(where)
    return _told(chosen(done, rack), found)


def by_own_figures(done: Reckoning, where: str | Path | None) -> Reckoning:
    """The job reckoned by the figures that the day book beside that rack has taught; as it was where it taught none."""
    from bickern.desk.daybook.keep import own_shop_at

    job, copy = done.job, done.copy
    if job is None or copy is None:
        return done
    own, found = own_shop_at(copy.shop, where)
    if own == copy.shop:
        return _told(done, found)
    of_pieces = frozenset(reckon_job(job, copy.shop).findings)
    return reckon_job(job, own, [*found, *(f for f in done.findings if f not in of_pieces)])


def _told(done: Reckoning, found: tuple[Finding, ...]) -> Reckoning:
    """The same with these findings before its own; a job that stands is not stopped by a rack that cannot be read."""
    if not found:
        return done
    every = tuple(dict.fromkeys((*found, *done.findings)))
    return Reckoning(done.job, done.copy and replace(done.copy, findings=every), every)
