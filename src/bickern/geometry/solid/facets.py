"""A flat outline cut into triangles along given lines, so that what is rolled up follows its surface."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.polygon import Point

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Ints = NDArray[np.int64]

Zone = Sequence[Sequence[Point]]
"""A part of a flat: its outline [m], and the holes in it."""
GRID = 1e-8
"""Points of the flat are kept on a grid of so much [m], so that places that are the same have the same numbers."""


@dataclass(frozen=True, slots=True, eq=False)
class Facets:
    """Triangles of a flat: `points` (n, 2) [m], `faces` (m, 3) counter-clockwise, and the `zone` (m,) of each face."""

    points: "Array"
    faces: "Ints"
    zone: "Ints"


def cut_up(
    outline: Sequence[Point],
    holes: Sequence[Sequence[Point]],
    lines: Sequence[Sequence[Point]],
    zones: Sequence[Zone] = (),
) -> Facets:
    """The outline without its holes in triangles, none of which crosses a line [m].

    `zones`: parts of the flat, each an outline and its own holes; zone 0 is what lies in none of them, zone k in the
    k-th, or in a later one that lies over it.
    """
    import shapely

    sheet = shapely.Polygon(outline, list(holes))
    if not sheet.is_valid:  # holes that run into one another, or off the edge
        sheet = shapely.Polygon(outline).difference(shapely.union_all([shapely.Polygon(h) for h in holes]))
    strings = [shapely.LineString(line) for line in lines]
    strings += [shapely.LineString([*loop, loop[0]]) for zone in zones for loop in zone]
    noded = shapely.union_all([sheet.boundary, *strings], grid_size=GRID)
    cells = shapely.get_parts(shapely.polygonize(shapely.get_parts(noded)))
    shapely.prepare(sheet)
    inner = shapely.get_coordinates(shapely.point_on_surface(cells))
    cells = cells[shapely.contains_xy(sheet, inner[:, 0], inner[:, 1])]
    triangles = shapely.get_parts(shapely.constrained_delaunay_triangles(cells))
    corners = shapely.get_coordinates(triangles).reshape(-1, 4, 2)[:, :3]
    return _numbered(corners, [shapely.Polygon(outer, inner) for outer, *inner in zones])


def _numbered(corners: "Array", zones: "Sequence[object]") -> Facets:
    """Triangles (m, 3, 2) with one number for each place; those of no area are left out."""
    import shapely

    # as one complex number each, which is quicker to sort than pairs
    steps = np.rint(corners.reshape(-1, 2) / GRID)
    whole, back = np.unique(steps[:, 0] + 1j * steps[:, 1], return_inverse=True)
    points, faces = np.column_stack((whole.real, whole.imag)) * GRID, back.reshape(-1, 3)
    a, b, c = (points[faces[:, k]] for k in range(3))
    left = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    faces[left < 0.0] = faces[left < 0.0][:, ::-1]
    middle = (a + b + c) / 3
    zone = np.zeros(len(faces), dtype=np.int64)
    for k, polygon in enumerate(zones, start=1):
        shapely.prepare(polygon)
        zone[shapely.contains_xy(polygon, middle[:, 0], middle[:, 1])] = k
    return Facets(points, faces, zone)
