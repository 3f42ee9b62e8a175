"""Which way a work is done: the first row of the tables that is meant for it and whose gaps it can fill."""

import string
from collections.abc import Iterator
from functools import lru_cache
from math import isclose

from bickern.iron.section import Section
from bickern.making.work.bar_ways import BAR_WAYS
from bickern.making.work.result import Work
from bickern.making.work.ring_ways import RING_WAYS
from bickern.making.work.sheet_ways import SHEET_WAYS
from bickern.making.work.way import FIELDS, Way
from bickern.measure.units.words import Shape

__all__ = ["FIELDS", "WAYS", "Datum", "Way", "data_of", "fields_in", "way_of"]

WAYS: tuple[Way, ...] = (*BAR_WAYS, *RING_WAYS, *SHEET_WAYS)
"""Every row, in the order in which they are tried."""
Datum = str | float | Section | tuple[str, ...]
"""What fills a gap: words, metres or radians or turns, a section, names of pieces."""

_SIZED = frozenset({"punch", "slit", "drift", "drill", "rivet", "rivet hot", "pin", "screw", "weld"})
_ANGLED = frozenset({"bend", "fold"})
_ACROSS = frozenset({"curl", "hoop", "wind", "close ring", "weld", "scarf"})
_ROUNDED = frozenset({"ring", "cold ring", "link", "oval", "cold oval"})
_SHAPED = {
    Shape.SQUARE: "square",
    Shape.ROUND: "round",
    Shape.OCTAGON: "octagon",
    Shape.FLAT: "flat",
    Shape.OVAL: "flat",
    Shape.POINT: "point",
}
_SHARP = 1.0
"""A bend of no more inside radius than so many thicknesses is made over the edge (common practice)."""


def way_of(work: Work) -> Way:
    """How this work is done. Raises KeyError where the tables have no row for the operation (a fault in us)."""
    cases, there = _cases(work), data_of(work).keys()
    for way in _by_operation()[work.does]:
        if (not way.when or way.when in cases) and fields_in(way) <= there:
            return way
    raise KeyError(work.does)


def data_of(work: Work) -> dict[str, Datum]:
    """What fills each gap that this work can fill, SI: lengths [m], angle [rad], turns, sections, names.

    `name` is the entry's, or the piece's where the whole piece is meant. `inside` is the width inside of an eye, a
    hoop or a ring, and the inside radius of any other bend.
    """
    return dict(_data(work))


def fields_in(way: Way) -> frozenset[str]:
    """The gaps in a row."""
    return _gaps(way.title) | _gaps(way.how) | _gaps(way.check)


@lru_cache(maxsize=1024)
def _gaps(text: str) -> frozenset[str]:
    return frozenset(name for _, name, _, _ in string.Formatter().parse(text) if name)


@lru_cache(maxsize=1)
def _by_operation() -> dict[str, tuple[Way, ...]]:
    return {does: tuple(w for w in WAYS if w.does == does) for does in {w.does for w in WAYS}}


def _data(work: Work) -> Iterator[tuple[str, Datum]]:
    yield "name", work.name or work.piece
    if work.before is not None:
        yield "before", work.before
    if work.after is not None:
        yield "after", work.after
    if (length := work.zone[1] - work.zone[0]) > 0:
        yield "length", length
    if work.amount:
        yield from _of_amount(work)
    if work.radius > 0:
        across = work.does in _ACROSS or work.case in _ROUNDED
        yield "inside", 2 * work.radius if across else work.radius
    if work.with_pieces:
        yield "other", work.with_pieces


def _of_amount(work: Work) -> Iterator[tuple[str, Datum]]:
    if work.does in _SIZED:
        yield "size", work.amount
    elif work.does == "twist":
        yield "turns", abs(work.amount)
    elif work.does in _ANGLED:
        yield "angle", work.amount


def _cases(work: Work) -> frozenset[str]:
    """The words of `Way.when` that fit this work."""
    return frozenset(_cases_told(work))


def _cases_told(work: Work) -> Iterator[str]:
    yield work.case
    yield "hot" if work.hot else "cold"
    if work.sheet:
        yield "sheet"
    if work.after is not None:
        yield _SHAPED.get(work.after.shape, "")
    if work.does == "bend" and not work.case:
        yield "sharp" if _is_sharp(work) else "wide"


def _is_sharp(work: Work) -> bool:
    section = work.after or work.before
    thick = section.thick if section is not None else 0.0
    return work.hot and (work.radius <= _SHARP * thick or isclose(work.radius, _SHARP * thick))
