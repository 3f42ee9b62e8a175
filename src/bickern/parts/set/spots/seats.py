"""Seats: the metal on which something can hang, as stations along its middle line."""

from collections.abc import Sequence
from math import ceil, cos, pi, sin
from typing import TYPE_CHECKING

from bickern.geometry.pose import Pose, facing, put, put_all
from bickern.geometry.space import Vec, cross, minus, unit
from bickern.parts.set.result import Seat
from bickern.parts.set.spots.laid import LaidBar, Stretch

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_INSIDE = 1e-7
_ROUND = 72
"""Stations round a full circle: every 5 degrees."""
Row = tuple[Vec, Vec, Vec, float, float]
"""One station: place, along, up, half the width and half the thickness [m]."""


def seat_along(name: str, laid: LaidBar, stretch: Stretch) -> Seat:
    """The seat of a stretch of bar."""
    return seat_of(name, _rows(laid, stretch, laid.stations(stretch)), _cornered(laid, stretch))


def closed_along(name: str, laid: LaidBar, stretch: Stretch) -> Seat:
    """The seat of a stretch that comes round to where it began: an eye, a hoop."""
    return seat_of(name, _rows(laid, stretch, laid.stations(stretch)[:-1]), _cornered(laid, stretch), closed=True)


def _cornered(laid: LaidBar, stretch: Stretch) -> bool:
    """As most of the stretch is, by its middle."""
    return laid.box((stretch[0] + stretch[1]) / 2)[2]


def _rows(laid: LaidBar, stretch: Stretch, ats: Sequence[float]) -> list[Row]:
    """Stations; at a shoulder the section is that of the stretch, not of what is beside it.

    Where thinned metal lies in a bend told by its inside, the face toward the mandrel is the told one.
    """
    rows: list[Row] = []
    for at in ats:
        frame = laid.frame(at)
        near = min(max(at, stretch[0] + _INSIDE), stretch[1] - _INSIDE)
        wide, thick, _ = laid.box(near)
        fuller = laid.fuller(near)
        rows.append((frame.origin, frame.along, frame.up, fuller * wide / 2, fuller * thick / 2))
    return rows


def edge_of_hole(name: str, pose: Pose, size: float, long: float | None = None) -> Seat:
    """The edge of a hole half way through its metal: a line without thickness. A slot has square ends."""
    if long is None:
        return seat_of(name, _circle(pose, size / 2, 0.0, 0.0), closed=True)
    corners = [(long / 2, size / 2), (-long / 2, size / 2), (-long / 2, -size / 2), (long / 2, -size / 2)]
    return seat_of(name, _polygon(pose, corners), closed=True)


def ring_seat(
    name: str, pose: Pose, straight: float, radius: float, half: tuple[float, float], square: bool = False
) -> Seat:
    """A loop about a pose's z: two half circles of `radius` [m] (of the middle line), `straight` [m] apart along x."""
    if straight <= 1e-9:
        return seat_of(name, _circle(pose, radius, *half), square, closed=True)
    rows: list[Row] = []
    steps = _ROUND // 2
    for end, first in ((1.0, -pi / 2), (-1.0, pi / 2)):
        for i in range(steps + 1):
            turn = first + pi * i / steps
            rows.append(_on_circle(pose, (end * straight / 2, 0.0), radius, turn, half))
        rows += _straight(pose, end, straight, radius, half)
    return seat_of(name, rows, square, closed=True)


def _straight(pose: Pose, end: float, long: float, radius: float, half: tuple[float, float]) -> list[Row]:
    """Stations inside the straight that follows the half circle at an end."""
    along, up = facing(pose, (-end, 0.0, 0.0)), facing(pose, (0.0, -end, 0.0))
    count = max(2, ceil(long / radius * 4))
    places = [end * (long / 2 - long * i / count) for i in range(1, count)]
    return [(put(pose, (x, end * radius, 0.0)), along, up, *half) for x in places]


def _circle(pose: Pose, radius: float, half_wide: float, half_thick: float) -> list[Row]:
    turns = [2 * pi * i / _ROUND for i in range(_ROUND)]
    return [_on_circle(pose, (0.0, 0.0), radius, t, (half_wide, half_thick)) for t in turns]


def _on_circle(pose: Pose, centre: tuple[float, float], radius: float, turn: float, half: tuple[float, float]) -> Row:
    """The thickness of the section lies toward the middle."""
    c, s = cos(turn), sin(turn)
    place = put(pose, (centre[0] + radius * c, centre[1] + radius * s, 0.0))
    return place, facing(pose, (-s, c, 0.0)), facing(pose, (-c, -s, 0.0)), *half


def _polygon(pose: Pose, corners: Sequence[tuple[float, float]]) -> list[Row]:
    rows: list[Row] = []
    for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True):
        along = facing(pose, unit((x1 - x0, y1 - y0, 0.0)))
        up = cross(pose.z, along)
        shares = [i / 6 for i in range(6)]
        rows += [(put(pose, (x0 + (x1 - x0) * u, y0 + (y1 - y0) * u, 0.0)), along, up, 0.0, 0.0) for u in shares]
    return rows


def seat_of(name: str, rows: Sequence[Row], square: bool = False, closed: bool = False) -> Seat:
    """Stations as arrays."""
    import numpy as np

    points, along, up = (np.array([row[k] for row in rows], dtype=float).reshape(-1, 3) for k in range(3))
    half = np.array([row[3:] for row in rows], dtype=float).reshape(-1, 2)
    return Seat(name, points, along, up, half, square, closed)


def line_seat(name: str, places: Sequence[Vec], out: Sequence[Vec], half: tuple[float, float], closed: bool) -> Seat:
    """A seat along places [m], its thickness lying along `out`."""
    rows: list[Row] = []
    count = len(places)
    for i, (place, up) in enumerate(zip(places, out, strict=True)):
        before = places[i - 1] if closed or i else places[i]
        after = places[(i + 1) % count] if closed or i < count - 1 else places[i]
        rows.append((place, unit(minus(after, before)), up, *half))
    return seat_of(name, rows, square=True, closed=closed)


def moved_seat(seat: Seat, pose: Pose) -> Seat:
    """The seat as it comes to lie by a pose."""
    return Seat(
        seat.name,
        put_all(pose, seat.points),
        _turned(pose, seat.along),
        _turned(pose, seat.up),
        seat.half,
        seat.square,
        seat.closed,
    )


def _turned(pose: Pose, ways: "NDArray[np.float64]") -> "NDArray[np.float64]":
    import numpy as np

    turned: NDArray[np.float64] = ways @ np.array((pose.x, pose.y, pose.z))
    return turned
