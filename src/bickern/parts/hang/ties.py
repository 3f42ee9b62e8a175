"""A tie between two bodies: a path of rings (or none: one body bears on the other), and how far apart it lets them.

Of n rings in a row, each inside the next, the way between the middle lines of what the first and the last go round is
the sum of their insides less half of each of those two bars: wherever the rings lie, their own thickness counts twice
and is taken off twice. A ring is drawn straight by its pull, so a tie is a straight line that slides along both bars.

Half of its weight hangs at either end; that it sags, and slides a little for it, is left out (for a hoop of 24 in on
chains of 16 in that together weigh a fifth of it that is a tenth of a degree).
"""

from dataclasses import dataclass

import numpy as np

from bickern.geometry.pose import Pose, facing, put, seen, within
from bickern.geometry.space import ORIGIN, Vec, distance, dot, minus, mixed, plus, times, unit
from bickern.parts.hang.track import Track, arc_of, nearest_on, on_arc, reach

_ROUNDS = 40
_NEAR = 1e-12
Spot2 = tuple[int, float]
"""A place on a track: the segment and how far into its arc."""


@dataclass(frozen=True, slots=True)
class Stay:
    """A tie to settle with: `top` and `bottom` tracks in their bodies' coordinates, `long` [m] the sum of insides.

    `long` 0: the two bodies bear on each other. `mass` [kg] of its rings, half at either end.
    """

    top: Track
    bottom: Track
    long: float
    mass: float

    @property
    def sign(self) -> int:
        """1: may not be longer; -1: the two bars may not come nearer."""
        return 1 if self.long > 0 else -1


@dataclass(frozen=True, slots=True)
class Drawn:
    """A tie as it lies: where its line meets the metal on both bodies, told in each body's own coordinates [m].

    `way`: from the top's bar to the bottom's, in the top's coordinates; `over` [m]: how much too long it is (below
    nothing: slack). `at`: the places on both tracks; `offs` [m]: from there to the middles of the metal's roundness.
    """

    on_top: Vec
    on_bottom: Vec
    middles: tuple[Vec, Vec]
    alongs: tuple[Vec, Vec]
    way: Vec
    over: float
    at: tuple[Spot2, Spot2]
    offs: tuple[Vec, Vec] = (ORIGIN, ORIGIN)


def drawn(stay: Stay, pose: Pose, up: Vec, near: Drawn | None = None) -> Drawn:
    """The tie with the bottom lying by `pose` in the top's coordinates, sought from `near` on.

    Its line is square to both bars and runs through the middle of the roundness of the metal at either end. Of two
    bodies that touch, the bottom's bar lies above the top's (`up` in the top's coordinates), however deep they run in.
    """
    if near is None:
        (one, two), offs = _roughly(stay, pose), (ORIGIN, ORIGIN)
    else:
        (one, two), offs = near.at, near.offs
    a, state = _on(stay.top, one), (put(pose, _on(stay.bottom, two)), offs[0], facing(pose, offs[1]))
    before: tuple[_State, _State] | None = None
    for _ in range(_ROUNDS):
        b, off_a, off_b = state
        one = nearest_on(stay.top, minus(plus(b, off_b), off_a), one[0])
        a = _on(stay.top, one)
        two = nearest_on(stay.bottom, within(pose, minus(plus(a, off_a), off_b)), two[0])
        b = put(pose, _on(stay.bottom, two))
        way = _way(stay, up, minus(plus(b, off_b), plus(a, off_a)))
        off_a = _reach(stay.top, one, times(way, -stay.sign))[1]
        off_b = facing(pose, _reach(stay.bottom, two, times(seen(pose, way), stay.sign))[1])
        found = (b, off_a, off_b)
        if max(map(distance, state, found)) < _NEAR:
            break
        before, state = (state, found), _hastened(before, state, found)
    b, off_a, off_b = found
    way = _way(stay, up, minus(plus(b, off_b), plus(a, off_a)))
    return _measured(stay, pose, (one, two), (off_a, seen(pose, off_b)), (a, way))


def _way(stay: Stay, up: Vec, across: Vec) -> Vec:
    way = unit(across)
    return times(way, -1.0) if stay.sign < 0 and dot(way, up) < 0 else way


_State = tuple[Vec, Vec, Vec]


def _hastened(before: "tuple[_State, _State] | None", asked: _State, found: _State) -> _State:
    """The next guess from the last two: on along the way they went, as far as their change says (Anderson's rule)."""
    if before is None:
        return found
    miss = [minus(f, s) for f, s in zip(found, asked, strict=True)]
    last = [minus(f, s) for f, s in zip(before[1], before[0], strict=True)]
    change = [minus(m, n) for m, n in zip(miss, last, strict=True)]
    size = sum(dot(c, c) for c in change)
    share = sum(dot(m, c) for m, c in zip(miss, change, strict=True)) / size if size > 1e-40 else 0.0
    if abs(share) > 20:
        return found
    b, off_a, off_b = (mixed(f, 1 - share, g, share) for f, g in zip(found, before[1], strict=True))
    return b, off_a, off_b


def _roughly(stay: Stay, pose: Pose) -> tuple[Spot2, Spot2]:
    """The nearest two stations."""
    axes = np.array((pose.x, pose.y, pose.z))
    bottom = stay.bottom.points @ axes + np.array(pose.origin)
    apart = np.linalg.norm(stay.top.points[:, None] - bottom[None], axis=2)
    i, j = divmod(int(apart.argmin()), apart.shape[1])
    return (min(i, stay.top.segments - 1), 0.0), (min(j, stay.bottom.segments - 1), 0.0)


def _on(track: Track, spot: Spot2) -> Vec:
    return on_arc(arc_of(track, spot[0]), spot[1])[0]


def _reach(track: Track, spot: Spot2, way: Vec) -> tuple[Vec, Vec]:
    return reach(track, spot[0], arc_of(track, spot[0]), spot[1], way)


def _measured(stay: Stay, pose: Pose, at: tuple[Spot2, Spot2], offs: tuple[Vec, Vec], line: tuple[Vec, Vec]) -> Drawn:
    (one, two), (a, way) = at, line
    low, b = seen(pose, way), _on(stay.bottom, two)
    # of a tie the metal away from the other bar bears, of two bars that touch the metal toward it
    on_top = plus(a, _reach(stay.top, one, times(way, -stay.sign))[0])
    on_bottom = plus(b, _reach(stay.bottom, two, times(low, stay.sign))[0])
    long = stay.sign * dot(minus(put(pose, on_bottom), on_top), way)
    alongs = (on_arc(arc_of(stay.top, one[0]), one[1])[1], on_arc(arc_of(stay.bottom, two[0]), two[1])[1])
    return Drawn(on_top, on_bottom, (a, b), alongs, way, long - stay.long, at, offs)


def inside_long(seat: Track) -> float:
    """The longest way across the inside of a loop [m]: of a ring its inside across, of a link its inside length."""
    apart = np.linalg.norm(seat.points[:, None] - seat.points[None], axis=2)
    return float(apart.max()) - 2 * float(seat.half[:, 1].mean())


def inside_between(one: Track, two: Track) -> float:
    """The longest way between two seats of one body, inside to inside [m]: what a body that is no ring ties with."""
    apart = np.linalg.norm(one.points[:, None] - two.points[None], axis=2)
    return max(float(apart.max()) - float(one.half.max()) - float(two.half.max()), _NEAR)


def mean_place(track: Track) -> Vec:
    """The middle of a track's stations [m]."""
    x, y, z = track.points.mean(axis=0).tolist()
    return (x, y, z)


def spread(places: tuple[Vec, ...]) -> Vec:
    """The direction in which places lie farthest apart (the first pair that does); none where they are one place."""
    best, way = 0.0, (0.0, 0.0, 0.0)
    for i, one in enumerate(places):
        for other in places[i + 1 :]:
            if (far := distance(one, other)) > best * (1 + 1e-9):
                best, way = far, unit(minus(other, one))
    return way
