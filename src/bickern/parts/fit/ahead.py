"""How far a thing may turn about a line before it can meet what stands there, from places strewn over both skins.

A place that turns stays in its cell: so far off the line, so high along it. In each cell the places that stand are
sorted by their angle about the line, and what turns looks for the next. Both skins lie within a grain of their places,
so that angle less what the grains are wide there is safe; it costs little, and is left to `gap` where it is none.
"""

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.solid import triangles
from bickern.geometry.solid.solid import Solid
from bickern.geometry.space import Vec

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

CELLS = float(1 << 16)
"""More cells than there are along the line."""
STRAY = 1.5
"""How far a skin may be from the nearest of its places, in grains: one by its strewing, half by their thinning."""
BOW = 1.1
"""How much longer an arc is than its chord, at most, where the places are used."""


@dataclass(frozen=True, slots=True, eq=False)
class Ahead:
    """Places that turn, each with its cell's number, its angle [turns], and the `slack` [turns] that its grain wants.

    `standing`: number of the cell plus angle [turns] of the places that stand, sorted; `first` and `last`: the places
    in it where the cell of each that turns begins and ends.
    """

    cell: "Array"
    angle: "Array"
    slack: "Array"
    first: "NDArray[np.intp]"
    last: "NDArray[np.intp]"
    standing: "Array"


def ahead_of(moving: Solid, still: Solid, line: tuple[Vec, Vec], grain: float) -> Ahead:
    """What turns about a line (point, unit vector) by what stands. `grain` [m]: how close the places are strewn."""
    off, high, angle = _about(moving, line, grain)
    cell = _cells(off, high, grain)
    off_s, high_s, angle_s = _about(still, line, grain)
    size = 2 * STRAY * grain
    beside = [_cells(off_s + i * size, high_s + j * size, grain) + angle_s for i in (-1, 0, 1) for j in (-1, 0, 1)]
    standing = np.sort(np.concatenate(beside))
    first, last = np.searchsorted(standing, cell), np.searchsorted(standing, cell + 1) - 1
    some = last >= first
    near = off[some] - size
    slack = np.where(near > size, BOW * size / np.maximum(near, size) / math.tau, 1.0)
    return Ahead(cell[some], angle[some], slack, first[some], last[some], standing)


def safe_turn(ahead: Ahead, turned: float, way: float) -> float:
    """By how much more it can turn [rad] unseen once it has `turned` so far [rad]; at most a whole turn.

    `way`: 1 by the right-hand rule, -1 against it.
    """
    if not len(ahead.cell):
        return math.tau
    turns = (ahead.angle + way * turned / math.tau) % 1.0
    at = ahead.cell + np.where(turns < 1.0, turns, 0.0)
    place = np.searchsorted(ahead.standing, at)
    after, before = place <= ahead.last, place > ahead.first
    onward = ahead.standing[np.where(after, np.minimum(place, ahead.last), ahead.first)] - at + ~after
    behind = at - ahead.standing[np.where(before, place - 1, ahead.last)] + ~before
    free = (onward if way > 0 else behind) - ahead.slack
    return float(np.where(np.minimum(onward, behind) <= ahead.slack, 0.0, free).min()) * math.tau


def _cells(off: "Array", high: "Array", grain: float) -> "Array":
    """The number of the cell of places so far off and so high."""
    size = 2 * STRAY * grain
    return np.floor(off / size + 2) * CELLS + np.floor(high / size) + CELLS / 2


def _about(solid: Solid, line: tuple[Vec, Vec], grain: float) -> "tuple[Array, Array, Array]":
    """Places over a skin, thinned: how far off the line, how high along it [m], at what angle about it [turns]."""
    places = triangles.split(solid.points[solid.faces], grain).sum(axis=1) / 3 - np.array(line[0])
    axis = np.array(line[1])
    side = np.cross(axis, (1.0, 0.0, 0.0) if abs(axis[0]) < 0.7 else (0.0, 1.0, 0.0))
    side /= np.linalg.norm(side)
    own = places @ np.stack((side, np.cross(axis, side), axis), axis=1)
    boxes = np.floor(own * (math.sqrt(3.0) * 2 / grain)) @ np.array((1.0, CELLS, CELLS**2))
    x, y, high = own[np.unique(boxes, return_index=True)[1]].T
    turns = np.arctan2(y, x) / math.tau % 1.0
    return np.hypot(x, y), high, np.where(turns < 1.0, turns, 0.0)
