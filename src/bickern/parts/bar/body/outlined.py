"""The outline of a bar's section at many places at once, drawn so that each holds exactly the metal it should."""

from dataclasses import dataclass
from functools import lru_cache
from math import pi, sqrt
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.solid.solid import Fineness
from bickern.iron.blend import mixed_area
from bickern.iron.section import Section, area, hole_of, solid_of
from bickern.iron.shapes import UNIT_SHAPES, polar_reach
from bickern.measure.units.words import Shape
from bickern.parts.bar.result import MetalRun
from bickern.parts.bar.tracks import EndOutline, EndShape
from bickern.parts.bar.volume import outline_share

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_ROUNDED = (Shape.ROUND, Shape.OVAL, Shape.HALF_ROUND)
_SQUARED = (Shape.SQUARE, Shape.FLAT, Shape.POINT)
_AROUND = {Fineness.PREVIEW: 24, Fineness.FINE: 48}
"""Points round a section with a curve in it."""
_FLAT_SIDED = {Fineness.PREVIEW: 8, Fineness.FINE: 16}
"""Points round a square: corners, middles of sides, and between."""
_OTHERS = 16
"""Points round a hexagon or an octagon, and round what is thinner than `_THIN` in a preview."""
_THIN = 0.006
"""Metres across below which the sides of a sixteen-cornered round lie within 0.06 mm of it."""
_TINY = 1e-12


def around(runs: tuple[MetalRun, ...], fineness: Fineness) -> tuple[float, ...]:
    """Polar angles [rad] of the unit box at which the outlines of all these runs get their points.

    Even in number, with every corner of every shape among them, and the middle of each side.
    """
    sections = [solid_of(s) for run in runs for s in (run.a, run.b)]
    step = 2 * pi / _count(sections, fineness)
    corners = {c % (2 * pi) for s in sections for c in UNIT_SHAPES[s.shape].corners}
    more = [c for c in corners if abs(c / step - round(c / step)) > 1e-6]
    return tuple(sorted([*(i * step for i in range(round(2 * pi / step))), *more]))


def _count(sections: list[Section], fineness: Fineness) -> int:
    round_ones = [s for s in sections if s.shape in _ROUNDED]
    if not round_ones:
        return _FLAT_SIDED[fineness] if all(s.shape in _SQUARED for s in sections) else _OTHERS
    thin = fineness is Fineness.PREVIEW and max(max(s.width, s.thick) for s in round_ones) <= _THIN
    return _OTHERS if thin else _AROUND[fineness]


@lru_cache(maxsize=256)
def _unit(shape: Shape, angles: tuple[float, ...]) -> "Array":
    """The outline (n, 2) of a shape in the unit box."""
    reach = np.array([polar_reach(shape, a) for a in angles])
    turn = np.array(angles)
    points: Array = np.column_stack((reach * np.cos(turn), reach * np.sin(turn)))
    points[np.abs(points) < _TINY] = 0.0
    return points


def loops_of(run: MetalRun, shares: "Array", angles: tuple[float, ...], tip_first: bool, neck: float) -> "Array":
    """Outlines (k, n, 2) (left, up) [m] of the outside at `shares` of the way along a run, about the line.

    `tip_first`: an outlined end is told from the bar to its tip; `neck` [m]: how wide the bar is that it grows from.
    """
    if run.outline is not None:
        return _flat_end(run.outline, 1.0 - shares if tip_first else shares, angles, neck)
    return _blended(solid_of(run.a), solid_of(run.b), shares, angles)


def holes_of(run: MetalRun, shares: "Array", angles: tuple[float, ...]) -> "Array":
    """Outlines (k, n, 2) [m] of the hole down a tube; a point where the run is solid."""
    return _blended(hole_of(run.a), hole_of(run.b), shares, angles)


def _blended(a: Section, b: Section, shares: "Array", angles: tuple[float, ...]) -> "Array":
    """Straight lines from one outline to the other, each drawn out to the area of the blend (exact: `iron.blend`).

    Chords cut a little off a curved outline; where the points are few that is made up by a slightly bigger polygon.
    """
    u = shares[:, None, None]
    loops: Array = (1 - u) * _sized(a, angles) + u * _sized(b, angles)
    first, last, mixed = area(a), area(b), mixed_area(a, b)
    wanted = (1 - shares) ** 2 * first + shares**2 * last + 2 * shares * (1 - shares) * mixed
    there = areas(loops)
    factor = np.sqrt(np.divide(wanted, there, out=np.ones_like(there), where=there > 1e-16))
    loops *= factor[:, None, None]
    return loops


def _sized(section: Section, angles: tuple[float, ...]) -> "Array":
    if section.shape is Shape.POINT:
        return np.zeros((len(angles), 2))
    size = np.array((section.width, section.thick)) * sqrt(section.fullness)
    sized: Array = _unit(section.shape, angles) * size
    return sized


def _flat_end(end: EndOutline, shares: "Array", angles: tuple[float, ...], neck: float) -> "Array":
    """An end spread flat: as wide as its outline, and at the bar no narrower than the bar.

    The law of the outline counts no neck; its metal is taken from the thickness of the whole end.
    """
    least = min(1.0, neck / end.width) if end.width > 0.0 else 0.0
    thick = end.thick * outline_share(end) / _share_with_neck(end, least)
    width = end.width * widened(end, shares, least)
    loops: Array = _unit(Shape.FLAT, angles)[None] * np.stack((width, np.full_like(width, thick)), axis=-1)[:, None, :]
    return loops


@lru_cache(maxsize=64)
def _share_with_neck(end: EndOutline, least: float) -> float:
    shares = np.linspace(0.0, 1.0, 2001)
    return float(np.trapezoid(widened(end, shares, least), shares)) if least else outline_share(end)


def widened(end: EndOutline, shares: "Array", least: float = 0.0) -> "Array":
    """Share of the full width at shares of the length from the bar to the tip; `least` holds over the inner half."""
    u = np.clip(shares, 0.0, 1.0)
    if end.shape is EndShape.LEAF:
        wide = 4 * u * (1 - u)
    elif end.shape is EndShape.SPADE:
        wide = 1 - np.maximum(2 * u - 1, 0.0) ** 2
    elif end.shape is EndShape.SPOON:
        wide = 2 * np.sqrt(u * (1 - u))
    else:
        wide = np.interp(u, [p[0] for p in end.profile], [p[1] for p in end.profile])
    necked: Array = np.where(u < 0.5, np.maximum(wide, least), wide)
    return necked


def areas(loops: "Array") -> "Array":
    """Area [m2] of each of many polygons (k, n, 2), counter-clockwise."""
    x, y = loops[:, :, 0], loops[:, :, 1]
    found: Array = (x * np.roll(y, -1, axis=1) - np.roll(x, -1, axis=1) * y).sum(axis=1) / 2
    return found


@dataclass(frozen=True, slots=True, eq=False)
class Middles:
    """Of many polygons: where their area balances (k, 2) [m], and their second moments (k, 3): xx, yy, xy [m4]."""

    centre: "Array"
    second: "Array"


def middles(loops: "Array") -> Middles:
    """Balance and second moments about the line of many polygons (k, n, 2) (exact, by triangles from the line)."""
    following = np.roll(loops, -1, axis=1)
    x, y, p, q = loops[:, :, 0], loops[:, :, 1], following[:, :, 0], following[:, :, 1]
    twice = x * q - p * y
    whole = np.maximum(twice.sum(axis=1), 1e-18)
    centre = np.stack((((x + p) * twice).sum(axis=1), ((y + q) * twice).sum(axis=1)), axis=-1) / (3 * whole[:, None])
    second = [(twice * s).sum(axis=1) / 12 for s in (x * x + x * p + p * p, y * y + y * q + q * q)]
    mixed = (twice * (2 * x * y + 2 * p * q + x * q + p * y)).sum(axis=1) / 24
    return Middles(centre, np.stack((*second, mixed), axis=-1))
