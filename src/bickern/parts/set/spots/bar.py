"""Named places of a bar: holes, eyes, stretches of metal and path, ends, and the bars that grow from it."""

from dataclasses import replace
from math import pi, sin
from typing import TYPE_CHECKING

from bickern.geometry.path import Arc, Frame, Station
from bickern.geometry.pose import Pose, of_frame, standing, then
from bickern.geometry.space import Vec, cross, distance, minus, norm, plus, times, unit
from bickern.parts.bar.body.body import grown
from bickern.parts.bar.result import BarResult, HoleCheck
from bickern.parts.bar.tracks import EyeLeg, Face, StraightLeg
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.result import Seat, Spot, SpotKind
from bickern.parts.set.spots.laid import LaidBar, Stretch, laid_bar, stretch_named, with_bends
from bickern.parts.set.spots.seats import closed_along, edge_of_hole, moved_seat, seat_along

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

_WHOLE = ("", "bar")
_ENDS = {"start": 0.0, "middle": 0.5, "end": 1.0}
_POINT = 1e-4
"""Half the length [m] of a stretch that stands for a place: an end, a middle."""
_ALIKE = 1e-6
"""Ways whose cosine is this near to one are the same."""


def bar_spots(bar: BarResult, place: str, filled: bool = False) -> tuple[Spot, ...]:
    """Every place of that name on a bar, in the bar's own coordinates; none where there is no such place.

    `filled`: something goes into a hole there (a rivet, a pin), so that a stretch of metal stands for its holes.
    """
    laid = laid_bar(bar)
    found = _named(laid, place, filled)
    head, _, last = place.rpartition(" ")
    if not found and head and last.isdigit():
        found = _named(laid, head, filled)[max(0, int(last) - 1) : int(last)]
    return found or _of_children(laid, place, filled)


def _named(laid: LaidBar, name: str, filled: bool) -> tuple[Spot, ...]:
    return _holes(laid, name, filled and stretch_named(laid.bar, name) is not None) or _one(laid, name)


def _holes(laid: LaidBar, name: str, filled: bool) -> tuple[Spot, ...]:
    holes = laid.bar.holes
    named = [h for h in holes if name and name in ("holes", h.hole.name)]
    if not named and filled:
        low, high = stretch_named(laid.bar, name) or (0.0, 0.0)
        named = [h for h in holes if low <= h.at <= high]
    return tuple(_hole(laid, h, i, len(named)) for i, h in enumerate(named, 1))


def _hole(laid: LaidBar, check: HoleCheck, i: int, count: int) -> Spot:
    """A hole: its axis looks out of the face it is made from."""
    frame = laid.frame(check.at)
    wide, thick, _ = laid.box(check.at)
    sideways = check.hole.face in (Face.LEFT, Face.RIGHT)
    axis = _face(frame, check.hole.face)
    pose = Pose(frame.origin, frame.along, cross(axis, frame.along))
    name = check.hole.name or "hole"
    name = name if count == 1 else f"{name} {i}"
    plate = wide if sideways else thick
    seat = edge_of_hole(name, pose, check.hole.size, check.hole.long)
    return Spot(name, SpotKind.OPENING, pose, check.hole.size, plate, seat)


def _face(frame: Frame, face: Face) -> Vec:
    ways = {Face.FRONT: frame.up, Face.BACK: times(frame.up, -1.0), Face.LEFT: frame.left}
    return ways.get(face, times(frame.left, -1.0))


def _one(laid: LaidBar, place: str) -> tuple[Spot, ...]:
    bar = laid.bar
    if place in _WHOLE:
        return (_hoop(laid),) if bar.spec.closed else (_stretch(laid, bar.spec.name, (0.0, bar.length)),)
    said, _, name = place.partition(" of ")
    if name and said in _ENDS:
        stretch = stretch_named(bar, name) or _hole_stretch(bar, name)
        return () if stretch is None else (_point(laid, place, stretch[0] + _ENDS[said] * (stretch[1] - stretch[0])),)
    eye = _eye(laid, place)
    if eye is not None:
        return (eye,)
    stretch = stretch_named(bar, place)
    if stretch is not None:
        return (_stretch(laid, place, stretch),)
    return (_point(laid, place, _ENDS[place] * bar.length),) if place in _ENDS else ()


def _hole_stretch(bar: BarResult, name: str) -> Stretch | None:
    found = [h.at for h in bar.holes if name in ("holes", h.hole.name)]
    return (found[0], found[-1]) if found else None


def _stretch(laid: LaidBar, name: str, stretch: Stretch) -> Spot:
    middle = (stretch[0] + stretch[1]) / 2
    _, thick, _ = laid.box(middle)
    pose = of_frame(laid.frame(middle))
    return Spot(name, SpotKind.BAR, pose, 0.0, thick, seat_along(name, laid, stretch))


def _point(laid: LaidBar, name: str, at: float) -> Spot:
    low, high = max(0.0, at - _POINT), min(laid.bar.length, at + _POINT)
    _, thick, _ = laid.box(at)
    return Spot(name, SpotKind.BAR, of_frame(laid.frame(at)), 0.0, thick, seat_along(name, laid, (low, high)))


def _eye(laid: LaidBar, name: str) -> Spot | None:
    """A bar bent round: the opening's axis looks the way the bend turns by the right-hand rule."""
    bends = (leg for leg in laid.bar.spec.path if not isinstance(leg, StraightLeg))
    pairs = zip(bends, laid.bar.bends, strict=False)
    found = next(((leg, b) for leg, b in pairs if isinstance(leg, EyeLeg) and leg.name == name), None)
    if found is None or not name:
        return None
    leg, bend = found
    arc = _ring_of(laid, bend.start, bend.end)
    if arc is None:
        return None
    stretch = (laid.line.on_metal(arc.s), laid.line.on_metal(arc.s + arc.length))
    wide, thick, _ = laid.box((stretch[0] + stretch[1]) / 2)
    plate = wide if abs(sin(leg.turn)) > 0.5 else thick
    return _closed(laid, name, stretch, SpotKind.EYE, leg.inside_across, plate)


def _ring_of(laid: LaidBar, start: float, end: float) -> Station | None:
    low, high = laid.line.on_line(start) - 1e-7, laid.line.on_line(end) + 1e-7
    inside = (s for s in laid.line.stations if isinstance(s.leg, Arc) and low <= s.s and s.s + s.length <= high)
    return next(inside, None)


def _hoop(laid: LaidBar) -> Spot:
    """A closed bar as a whole: what can hang on it all round."""
    bar = laid.bar
    across = bar.length / pi - laid.box(0.0)[1]
    return _closed(laid, bar.spec.name, (0.0, bar.length), SpotKind.RING, across, laid.box(0.0)[1])


def _closed(laid: LaidBar, name: str, stretch: Stretch, kind: SpotKind, across: float, plate: float) -> Spot:
    seat = closed_along(name, laid, stretch)
    x, y, z = (float(v) for v in seat.points.mean(axis=0))
    middle = (x, y, z)
    first, second = (_row(seat.points, i) for i in (0, len(seat.points) // 4))
    axis = unit(cross(minus(first, middle), minus(second, middle)))
    along = laid.line.frame(stretch[1]).along
    return Spot(name, kind, standing(middle, axis, _not_along(along, axis)), across, plate, seat)


def _row(points: "NDArray[np.float64]", i: int) -> Vec:
    x, y, z = points[i]
    return float(x), float(y), float(z)


def _not_along(way: Vec, axis: Vec) -> Vec:
    """The direction wanted, or any other where it runs along the axis."""
    return way if norm(cross(way, axis)) > 1e-6 else (0.3, 0.5, 0.7)


def _of_children(laid: LaidBar, place: str, filled: bool) -> tuple[Spot, ...]:
    """Places on bars that grow from this one: by the child's own name, or a name on it."""
    for child, pose in grown(laid.bar, laid.line):
        name, _, rest = place.partition(".")
        inner = rest if name == child.spec.name else place
        found = bar_spots(child, inner, filled)
        if found:
            return tuple(moved_spot(one, pose) for one in found)
    return ()


def flat_width(bar: BarResult, hole: Spot) -> float:
    """How wide [m] the flat is that a hole goes through; 0 where it is round, or the hole is on a bar grown from it."""
    laid = laid_bar(bar)
    for check in bar.holes:
        if distance(laid.frame(check.at).origin, hole.pose.origin) < _POINT:
            wide, thick, flat = laid.box(check.at)
            sideways = check.hole.face in (Face.LEFT, Face.RIGHT)
            return (thick if sideways else wide) if flat else 0.0
    return 0.0


def moved_spot(place: Spot, pose: Pose) -> Spot:
    """The place as it comes to lie by a pose."""
    seat = moved_seat(place.seat, pose) if place.seat is not None else None
    return replace(place, pose=then(pose, place.pose), seat=seat)


def as_hook(bar: PieceResult, place: Spot) -> Spot:
    """A stretch by which a bar hooks on: the crown of a staple holds together with the bends at its ends."""
    stretch = stretch_named(bar, place.name) if isinstance(bar, BarResult) else None
    if not isinstance(bar, BarResult) or stretch is None or place.kind is not SpotKind.BAR:
        return place
    return replace(place, seat=seat_along(place.name, laid_bar(bar), with_bends(bar, stretch)))


def as_pin(bar: BarResult, place: Spot) -> Spot:
    """A stretch of round bar as the pin that others turn on, z along it: they sit against its shoulder.

    On a bar that is named as a whole they sit midway on the longer of the straights at its ends.
    """
    seat = place.seat
    if seat is None or not _all_of(laid_bar(bar), seat):
        return as_tenon(bar, place)
    first, last = max((_straight(seat, way) for way in (1, -1)), key=lambda ends: distance(*ends))
    middle = times(plus(first, last), 0.5)
    return replace(place, kind=SpotKind.FACE, pose=standing(middle, minus(last, first), place.pose.z), plate=0.0)


def _all_of(laid: LaidBar, seat: Seat) -> bool:
    """Whether a stretch runs from end to end."""
    ends = [laid.frame(at).origin for at in (0.0, laid.bar.length)]
    return max(distance(_row(seat.points, -i), end) for i, end in enumerate(ends)) < _POINT


def _straight(seat: Seat, way: int) -> tuple[Vec, Vec]:
    """The straight at an end of a stretch (`way` 1: its beginning), from the end inward."""
    points, along = seat.points[::way], seat.along[::way]
    bent = (along @ along[0] < 1 - _ALIKE).nonzero()[0]
    return _row(points, 0), _row(points, int(bent[0]) - 1 if len(bent) else -1)


def as_tenon(bar: BarResult, place: Spot) -> Spot:
    """A stretch at an end of the bar as a tenon: its place is the shoulder, z points out of it along the tenon."""
    seat = place.seat
    if seat is None:
        return place
    laid = laid_bar(bar)
    first, last = _row(seat.points, 0), _row(seat.points, -1)
    at_end = distance(last, laid.frame(bar.length).origin) <= distance(first, laid.frame(0.0).origin)
    shoulder, out = (first, _row(seat.along, 0)) if at_end else (last, times(_row(seat.along, -1), -1.0))
    return replace(place, kind=SpotKind.FACE, pose=standing(shoulder, out, place.pose.z), plate=0.0)
