"""The solid that a skin of sheet encloses, the sheet taken as nothing: its ends, its volume, other ways to tell it."""

from enum import StrEnum
from math import cos, pi, sqrt, tan

from bickern.measure.source import MATHEMATICS
from bickern.parts.sheet.figures import cone_volume
from bickern.parts.sheet.flats import cap_volume
from bickern.parts.sheet.spec import Bowl, Cone, Cylinder, Pyramid

SOURCE = MATHEMATICS
"""All of it is exact: circles, regular polygons, and the prismoidal formula for solids with straight sides."""


class Across(StrEnum):
    """What the sizes of a regular polygon are told of: its flats (twice the radius inside), its corners, its sides."""

    FLATS = "flats"
    CORNERS = "corners"
    SIDES = "sides"


def across_flats(sides: int, size: float, told: Across) -> float:
    """Twice the radius [m] of the circle inside a regular polygon, from a size told otherwise."""
    half = pi / sides
    return size * {Across.FLATS: 1.0, Across.CORNERS: cos(half), Across.SIDES: 1 / tan(half)}[told]


def height_under(slant: float, run: float) -> float | None:
    """Upright height [m] under a slant that moves inward by `run`; None where the slant is no longer than that."""
    return sqrt(slant**2 - run**2) if slant > abs(run) else None


def volume(solid: Cone | Cylinder | Pyramid | Bowl) -> float:
    """Volume [m3] by the sizes as they are told; a cut round by its height in the middle."""
    if isinstance(solid, Cone):
        return cone_volume(solid)
    if isinstance(solid, Cylinder):
        return pi / 4 * solid.across**2 * solid.height
    if isinstance(solid, Bowl):
        return cap_volume(solid.rim, solid.depth)
    low, middle, high = (_level(solid, share) for share in (0.0, 0.5, 1.0))
    return solid.height * (low + 4 * middle + high) / 6


def ends_area(solid: Cone | Cylinder | Pyramid) -> float:
    """Area [m2] of the lower and the upper end together; a cut round ends in an ellipse."""
    if isinstance(solid, Cone):
        return pi / 4 * (solid.base**2 + solid.top**2)
    if isinstance(solid, Cylinder):
        return pi / 4 * solid.across**2 * (1 + 1 / cos(solid.cut))
    return _level(solid, 0.0) + _level(solid, 1.0)


def _level(p: Pyramid, share: float) -> float:
    """Area [m2] of a level cut, `share` of the way up: n r^2 tan(pi/n), or long times wide."""
    across = p.base + (p.top - p.base) * share
    if p.base_long is None:
        return p.sides * (across / 2) ** 2 * tan(pi / p.sides)
    top_long = p.top if p.top_long is None else p.top_long
    return across * (p.base_long + (top_long - p.base_long) * share)
