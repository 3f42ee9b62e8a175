"""Sheet put together with what finds no hole in it to meet: a pan on its feet, a palm under a pan or against a bowl.

What a smith would expect is taken for granted, and a note says so. A pan lies level on what holds it, its middle over
theirs, turned by eighths until nothing is in the way. A single bar with a palm holds a pan from its back, the palm's
last rivet two diameters in from the back edge; a bowl or a skin from its outside, that rivet two diameters below the
rim, the bar going on upward and out along the side. The place named first lies outermost.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import atan2, cos, pi, sin, sqrt

from bickern.geometry.pose import Pose, back, standing, then
from bickern.geometry.space import Vec, dot, minus, mixed, norm, times, unit
from bickern.parts.set.result import Spot
from bickern.parts.sheet.again import middle_of
from bickern.parts.sheet.places import rim_of
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl, FlatOutline, Pan

EDGE = 2.0
"""Rivet diameters from the middle of a rivet to an edge (common practice; the shop's own for seams is a rule)."""
_EIGHTHS = tuple(i * pi / 4 for i in range(8))
_UP: Vec = (0.0, 0.0, 1.0)


@dataclass(frozen=True, slots=True)
class Palm:
    """A bar's places against a sheet, all in the bar's coordinates: `spots`, where the bar balances, and the rivet [m].

    `outside`: it lies on the sheet's outer side.
    """

    spots: tuple[Spot, ...]
    balance: Vec
    rivet: float
    outside: bool

    @property
    def free_way(self) -> Vec:
        """Along the bar, away from the rest of it."""
        way = self.spots[0].pose.x
        return way if dot(way, minus(self.middle, self.balance)) >= 0 else times(way, -1.0)

    @property
    def middle(self) -> Vec:
        """The middle of its places [m]."""
        return _middle([s.pose.origin for s in self.spots])

    @property
    def half(self) -> float:
        """From that middle to the place nearest the rest of the bar [m]."""
        return max(-dot(minus(s.pose.origin, self.middle), self.free_way) for s in self.spots)


def _middle(places: Sequence[Vec]) -> Vec:
    total = (sum(p[0] for p in places), sum(p[1] for p in places), sum(p[2] for p in places))
    return times(total, 1 / len(places))


def sheet_on_palm(sheet: SheetResult, palm: Palm) -> tuple[Pose, ...]:
    """Ways in which the sheet can lie in the bar's coordinates."""
    return tuple(_on_palm(sheet, palm))


def _on_palm(sheet: SheetResult, palm: Palm) -> Iterator[Pose]:
    surface = middle_of(sheet)
    apart = (palm.spots[0].plate + sheet.spec.thick) / 2
    face = palm.spots[0].pose.z
    if isinstance(surface, Pan):
        for side in (1.0, -1.0) if palm.outside else (-1.0, 1.0):
            yield _pan_behind(surface, palm, face, side * apart)
        return
    place, out, upward = against(sheet, palm)
    side = 1.0 if palm.outside else -1.0
    own = Pose(mixed(place, 1.0, out, side * apart), upward, _third(out, upward))
    ways = [standing(palm.middle, times(face, turned), times(palm.free_way, -1.0)) for turned in (1.0, -1.0)]
    # of the two faces the one is put to the sheet that leaves the rest of the bar farther out
    yield from sorted((then(way, back(own)) for way in ways), key=lambda pose: _height(pose, palm.balance, own, out))


def _height(pose: Pose, balance: Vec, own: Pose, out: Vec) -> float:
    """How little the bar stands out from the sheet (the sheet lies by `pose` in the bar's coordinates)."""
    there = then(back(pose), Pose(balance)).origin
    return -dot(minus(there, own.origin), out)


def _third(z: Vec, x: Vec) -> Vec:
    return standing((0.0, 0.0, 0.0), z, x).y


def _pan_behind(pan: Pan, palm: Palm, up: Vec, apart: float) -> Pose:
    """The pan's bottom on the palm (or under it: `apart` below nothing), its back toward the rest of the bar."""
    to_back = times(palm.free_way, -1.0)
    rivet_in = EDGE * palm.rivet
    middle = mixed(palm.middle, 1.0, up, apart)
    centre = mixed(middle, 1.0, palm.free_way, pan.long / 2 - palm.half - rivet_in)
    x = times(standing((0.0, 0.0, 0.0), up, to_back).y, -1.0)
    return Pose(centre, x, to_back)


def against(sheet: SheetResult, palm: Palm) -> tuple[Vec, Vec, Vec]:
    """Where a palm meets the middle of a sheet: the place [m], the way out of the piece, and upward along its side."""
    surface = middle_of(sheet)
    if isinstance(surface, Bowl):
        radius = (surface.rim**2 / 4 + surface.depth**2) / (2 * surface.depth)
        rim = atan2(surface.rim / 2, radius - surface.depth)
        turn = max(0.0, rim - (EDGE * palm.rivet + palm.half) / radius)
        place = (radius * sin(turn), 0.0, radius * (1 - cos(turn)))
        return place, (sin(turn), 0.0, -cos(turn)), (cos(turn), 0.0, sin(turn))
    if isinstance(surface, FlatOutline):
        return (0.0, 0.0, 0.0), _UP, (0.0, 1.0, 0.0)
    low, high = (rim_of(sheet, on, 3) for on in ("bottom", "top"))
    foot = low[len(low) // 2]
    head = high[len(high) // 2].point if high else (0.0, 0.0, foot.point[2] + 1.0)
    return _middle((foot.point, head)), foot.out, unit(minus(head, foot.point))


def pan_on_feet(sheet: SheetResult, feet: Sequence[Spot], up: Vec, outside: bool) -> tuple[Pose, ...]:
    """A sheet level on places that already lie (in the body's coordinates), its middle over theirs.

    `up` says which way it opens; `outside`: the sheet lies under them all, else on them.
    """
    normal = unit(_middle([f.pose.z if dot(f.pose.z, up) >= 0 else times(f.pose.z, -1.0) for f in feet]))
    apart = (feet[0].plate + sheet.spec.thick) / 2
    middle = mixed(_middle([f.pose.origin for f in feet]), 1.0, normal, -apart if outside else apart)
    toward = minus(feet[0].pose.origin, middle)
    level = mixed(toward, 1.0, normal, -dot(toward, normal))
    base = standing(middle, normal, level if norm(level) > 1e-6 else feet[0].pose.x)
    return tuple(_about(base, turn) for turn in _EIGHTHS)


def _about(pose: Pose, angle: float) -> Pose:
    c, s = cos(angle), sin(angle)
    return Pose(pose.origin, mixed(pose.x, c, pose.y, s), mixed(pose.y, c, pose.x, -s))


def foot_on(sheet: SheetResult, foot: Spot, number: int, count: int, outside: bool) -> tuple[Pose, ...]:
    """One of several bars on a sheet that lies as it is: spread evenly round, four of them toward the corners.

    Every face of the bar and quarter turn, as its place comes to lie on the sheet's middle face.
    """
    surface = middle_of(sheet)
    spread = 2 * pi * (number - 0.5) / count
    reach = _SPREAD * (min(surface.long, surface.wide) / sqrt(2) if isinstance(surface, Pan) else _radius(surface))
    apart = (foot.plate + sheet.spec.thick) / 2
    place = (reach * cos(spread), reach * sin(spread), -apart if outside else apart)
    level = standing(place, _UP, (cos(spread), sin(spread), 0.0))
    over = Pose(level.origin, level.x, times(level.y, -1.0))
    quarters = (0.0, pi / 2, pi, -pi / 2)
    return tuple(then(_about(side, turn), back(foot.pose)) for side in (level, over) for turn in quarters)


_SPREAD = 0.7
"""How far out feet stand that nothing says a place for, in shares of the way to the corner or the rim."""


def _radius(surface: object) -> float:
    return surface.rim / 2 if isinstance(surface, Bowl) else 0.0
