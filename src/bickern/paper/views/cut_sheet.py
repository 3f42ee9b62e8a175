"""A sheet of the rack in small, with the parts that come out of it, each with its letter."""

from collections.abc import Sequence
from dataclasses import dataclass

from bickern.geometry.polygon import Loop, bounds, to_shapely
from bickern.paper.marks import (
    Anchor,
    Drawing,
    Layer,
    Mark,
    Point,
    Text,
    Tick,
    TickKind,
    Weight,
    drawing,
    outline,
)
from bickern.paper.views.scale import fitting, shown_at

LETTER = 0.0042
"""Capitals of the letters in the parts [m]: read at arm's length."""


@dataclass(frozen=True, slots=True)
class Shown:
    """One part as it lies on the sheet [m]: its outline, its cutouts, its letter."""

    letter: str
    outline: Loop
    cutouts: tuple[Loop, ...] = ()


def cut_sheet(sheet: Loop, cutouts: Sequence[Loop], parts: Sequence[Shown], room: tuple[float, float]) -> Drawing:
    """The sheet at a scale that goes into the room (width, height) [m]; a flag stands at the corner to measure from."""
    (left, low), (right, high) = bounds(sheet)
    scale = fitting(right - left, high - low, room)
    found: list[Mark] = [mark for loop in (sheet, *cutouts) for mark in outline(loop, Layer.OUTLINE)]
    for part in parts:
        found += [mark for loop in (part.outline, *part.cutouts) for mark in outline(loop, Layer.CUT)]
        x, y = _inside(part)
        found.append(Text((x, y - LETTER / 2 / scale), part.letter, LETTER, Anchor.MIDDLE, weight=Weight.BOLD))
    found.append(Tick((left, low - 0.003 / scale), TickKind.DATUM, 0.006))  # below the sheet, where no part hides it
    return shown_at(drawing(found), scale)


def _inside(part: Shown) -> Point:
    """The place in a part that is farthest from its edges."""
    import shapely

    shape = to_shapely(part.outline, 5e-4, part.cutouts).buffer(0)
    (x, y), *_ = shapely.maximum_inscribed_circle(shape, tolerance=0.001).coords
    return x, y
