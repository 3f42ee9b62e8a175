"""Faults of a free outline: it crosses itself, or its cut-outs leave it or meet one another."""

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from bickern.geometry.polygon import Loop, bounds, to_shapely
from bickern.measure.finding import Finding, stop
from bickern.parts.sheet.say import told, told_pair
from bickern.parts.sheet.spec import FlatOutline

if TYPE_CHECKING:
    from shapely.geometry import Polygon

_STRAY = 2e-5
"""How far chords leave an arc here, and the least metal that counts as left between two edges [m]."""


def outline_wrong(flat: FlatOutline) -> Iterator[Finding]:
    """What makes an outline no piece of sheet; where loops cross themselves, nothing more can be said of them."""
    outer, cuts = to_shapely(flat.outer, _STRAY), [to_shapely(hole, _STRAY) for hole in flat.holes]
    crossed = [*_crossed(outer, "The outline"), *(f for cut in cuts for f in _crossed(cut, "A cut-out"))]
    yield from crossed
    if not crossed:
        yield from _off(outer, cuts, flat.holes)
        yield from _met(cuts, flat.holes)


def _crossed(loop: "Polygon", what: str) -> Iterator[Finding]:
    if loop.is_valid:
        return
    from shapely.validation import explain_validity

    spot = re.search(r"\[(\S+) (\S+)\]", explain_validity(loop))
    at = f" at {told(float(spot[1]))} across and {told(float(spot[2]))} up" if spot else ""
    yield stop("outline-crosses-itself", f"{what} crosses or touches itself{at}.", "Go round it corner by corner.")


def _off(outer: "Polygon", cuts: "list[Polygon]", loops: tuple[Loop, ...]) -> Iterator[Finding]:
    from shapely import prepare

    prepare(outer)
    for cut, loop in zip(cuts, loops, strict=True):
        if not outer.contains(cut) or outer.exterior.distance(cut.exterior) <= _STRAY:
            says = f"The cut-out {_named(loop)} lies outside the outline, or crosses or touches its edge."
            yield stop("cut-out-off-outline", says, "Move it in, make it smaller, or draw the notch in the outline.")


def _met(cuts: "list[Polygon]", loops: tuple[Loop, ...]) -> Iterator[Finding]:
    from shapely import STRtree

    if len(cuts) < 2:
        return
    first, second = STRtree(cuts).query(cuts, predicate="dwithin", distance=_STRAY)
    for i, k in zip(first.tolist(), second.tolist(), strict=True):
        if i < k:
            says = f"The cut-outs {_named(loops[i])} and {_named(loops[k])} run into each other."
            yield stop("cut-outs-overlap", says, "Move them apart, or draw them as one.")


def _named(loop: Loop) -> str:
    """A cut-out by its size and the middle of it, as it is told in a job."""
    (left, low), (right, top) = bounds(loop)
    size = f"round {told(right - left)}" if len(loop.segs) == 1 else f"of {told_pair(right - left, top - low)}"
    return f"{size} at {told_pair((left + right) / 2, (low + top) / 2)}"
