"""How near the nearest metal is behind each dot of the paper: a picture of depths."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.solid import triangles

if TYPE_CHECKING:
    from numpy.typing import NDArray

LONGEST = 16.0
"""Dots along a triangle before it is split, so that its box is not mostly empty."""
LADDER = np.array((1, 2, 3, 4, 6, 8, 12, 16, 24, 32))
"""Boxes of so many dots are painted at once: few kinds, and little of a box left empty."""


@dataclass(frozen=True, slots=True, eq=False)
class Shade:
    """Depths toward the viewer (rows, columns) [m], minus infinity where there is nothing.

    The dot in row i and column k has its middle at `corner` + (k + 1/2, i + 1/2) `dot` [m].
    """

    depths: "NDArray[np.float64]"
    corner: "NDArray[np.float64]"
    dot: float


def shaded(seen: "NDArray[np.float64]", dots: int) -> Shade:
    """The picture of triangles (m, 3, 3) told as right, up, toward the viewer [m]; the longer side has `dots`.

    Only triangles that look at the viewer are painted: of a closed skin nothing else can be the nearest.
    """
    flat = seen[:, :, :2].reshape(-1, 2)
    low, high = flat.min(axis=0), flat.max(axis=0)
    dot = max(float((high - low).max()), 1e-9) / dots
    corner = low - 4 * dot
    columns, rows = (int(n) for n in np.ceil((high - low) / dot) + 8)
    depths = np.full(rows * columns, -np.inf)
    scaled = seen.copy()
    scaled[:, :, :2] = (seen[:, :, :2] - corner) / dot - 0.5  # a dot's middle falls on whole numbers
    _paint(depths, columns, _pieces(scaled))
    return Shade(depths.reshape(rows, columns), corner, dot)


def looked_up(shade: Shade, places: "NDArray[np.float64]") -> "tuple[NDArray[np.float64], NDArray[np.float64]]":
    """The depths at the dots where places (n, 2) of the paper fall, and those dots' middles (n, 2) [m]."""
    cells = np.floor((places - shade.corner) / shade.dot).astype(np.intp)
    cells = np.clip(cells, 0, np.array(shade.depths.shape[::-1]) - 1)
    return shade.depths[cells[:, 1], cells[:, 0]], shade.corner + (cells + 0.5) * shade.dot


def _turning(flat: "NDArray[np.float64]") -> "NDArray[np.float64]":
    """Twice the area of triangles on the paper, positive for those that look at the viewer."""
    u, v = flat[:, 1, :2] - flat[:, 0, :2], flat[:, 2, :2] - flat[:, 0, :2]
    return np.asarray(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])


def _pieces(scaled: "NDArray[np.float64]") -> "NDArray[np.float64]":
    """The triangles that look at the viewer, the long ones split along what the paper shows of them."""
    facing = scaled[_turning(scaled) > 1e-9]
    low, high = _boxes(facing)
    long = (high - low).max(axis=1) > LONGEST
    return np.concatenate((facing[~long], triangles.split(facing[long], LONGEST, flat=True)))


def _boxes(pieces: "NDArray[np.float64]") -> "tuple[NDArray[np.float64], NDArray[np.float64]]":
    """The least and the greatest right and up of triangles, (n, 2) both."""
    a, b, c = pieces[:, 0, :2], pieces[:, 1, :2], pieces[:, 2, :2]
    return np.minimum(np.minimum(a, b), c), np.maximum(np.maximum(a, b), c)


def _paint(depths: "NDArray[np.float64]", columns: int, pieces: "NDArray[np.float64]") -> None:
    """Every triangle on every dot whose middle it covers; those whose boxes are alike at once."""
    low, high = _boxes(pieces)
    first = np.ceil(low - 1e-9)
    sizes = np.floor(high + 1e-9) - first + 1
    some = (sizes > 0).all(axis=1)
    pieces, first = pieces[some], first[some]
    steps = np.searchsorted(LADDER, sizes[some])
    kind = steps[:, 0] * len(LADDER) + steps[:, 1]
    order = np.argsort(kind, kind="stable")
    for rows in np.split(order, np.nonzero(np.diff(kind[order]))[0] + 1):
        if len(rows):
            box = int(LADDER[steps[rows[0], 0]]), int(LADDER[steps[rows[0], 1]])
            _paint_alike(depths, columns, pieces[rows], first[rows], box)


def _paint_alike(
    depths: "NDArray[np.float64]",
    columns: int,
    pieces: "NDArray[np.float64]",
    first: "NDArray[np.float64]",
    box: tuple[int, int],
) -> None:
    """Triangles (n, 3, 3) whose boxes of dots begin at `first` and hold `box` columns and rows."""
    x = (first[:, 0, None] + np.arange(box[0]))[:, None, :]
    y = (first[:, 1, None] + np.arange(box[1]))[:, :, None]
    whole = _turning(pieces)
    inside, depth = np.ones((len(pieces), box[1], box[0]), dtype=bool), np.zeros((len(pieces), box[1], box[0]))
    for k in range(3):
        p, q, corner = pieces[:, (k + 1) % 3], pieces[:, (k + 2) % 3], pieces[:, k, 2]
        run, rise = q[:, 0] - p[:, 0], q[:, 1] - p[:, 1]
        share = _spread(run) * (y - _spread(p[:, 1])) - _spread(rise) * (x - _spread(p[:, 0]))
        inside &= share >= -1e-9 * _spread(whole)
        depth += share * _spread(corner / whole)
    at = (y * columns + x)[inside].astype(np.intp)
    np.maximum.at(depths, at, depth[inside])


def _spread(column: "NDArray[np.float64]") -> "NDArray[np.float64]":
    return column[:, None, None]
