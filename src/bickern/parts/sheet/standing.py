"""Where a spot of the flat stands once the piece is rolled up, on the middle of the sheet.

Cones, cylinders, pyramids and transitions stand on z = 0 about the z axis. A pan's bottom lies level, its middle
surface at z = 0 and the middle of its outside sizes on the z axis: front is -y, right +x. A bowl's lowest place is
the origin.
"""

from dataclasses import dataclass
from math import cos, pi, sin

from bickern.geometry.develop.dished import bowl
from bickern.geometry.develop.pattern import Development, Facing, roll_up
from bickern.geometry.polygon import Point
from bickern.geometry.space import Vec, cross, minus, plus, times, unit
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.body.profile import Profile, Turn, standing_at
from bickern.parts.sheet.chain import Spot
from bickern.parts.sheet.pan import fold_of
from bickern.parts.sheet.spec import Bowl, Pan

_NEAR = 1e-7


@dataclass(frozen=True, slots=True)
class Stand:
    """A spot in space [m]; unit vectors `along` an edge, `over` the edge and away, `toward` the looker at the flat."""

    point: Vec
    along: Vec
    over: Vec
    toward: Vec

    def at(self, along: float, over: float, toward: float) -> Vec:
        """The place that lies so far off [m]."""
        there = plus(times(self.along, along), plus(times(self.over, over), times(self.toward, toward)))
        return plus(self.point, there)


def on_skin(development: Development, spot: Spot) -> Stand:
    """How a spot of a rolled or folded flat stands."""
    ahead, behind = spot.off(_NEAR, 0.0), spot.off(-_NEAR, 0.0)
    out, back = spot.off(0.0, _NEAR), spot.off(0.0, -_NEAR)
    here, a, b, c, d = roll_up(development, (spot.point, ahead, behind, out, back))
    along = unit(minus(a, b))
    toward = unit(cross(minus(c, d), along))
    return Stand(here, along, cross(along, toward), toward)


def outside_of(stand: Stand, facing: Facing) -> Vec:
    """The way out of the piece, square to the sheet."""
    return stand.toward if facing is Facing.OUTSIDE else times(stand.toward, -1.0)


def dish_of(middle: Bowl) -> Development:
    """The flat of a bowl, laid out again."""
    made = bowl(middle.rim / 2, middle.depth).value
    if made is None:
        raise ValueError("a bowl that was reckoned can be laid out again")
    return made


@dataclass(frozen=True, slots=True)
class Wall:
    """A pan's wall: the spot (flat) where its fold begins, its middle, and how it is turned out from there."""

    name: str
    root: Spot
    profile: Profile


def wall_of(pan: Pan, name: str, thick: float, rules: SheetRules) -> Wall:
    """The wall of that name; beyond the fold the profile goes straight on."""
    fold = fold_of(pan, thick, rules)
    inset = fold.setback
    root = {
        "front": Spot((pan.wide / 2, inset), (1.0, 0.0)),
        "right": Spot((pan.wide - inset, pan.long / 2), (0.0, 1.0)),
        "back": Spot((pan.wide / 2, pan.long - inset), (-1.0, 0.0)),
        "left": Spot((inset, pan.long / 2), (0.0, -1.0)),
    }[name]
    return Wall(name, root, (Turn(fold.length, pi / 2, pi / 2 * (fold.radius + thick / 2)),))


def on_pan(pan: Pan, point: Point) -> Vec:
    """A place of the bottom's flat in space [m]."""
    return point[0] - pan.wide / 2, point[1] - pan.long / 2, 0.0


def on_wall(pan: Pan, wall: Wall, point: Point) -> Stand:
    """How a place of the flat of a wall stands."""
    (ax, ay), (ox, oy) = wall.root.along, wall.root.outward
    off = point[0] - wall.root.point[0], point[1] - wall.root.point[1]
    place = standing_at(wall.profile, off[0] * ox + off[1] * oy)
    x, y, _ = on_pan(pan, wall.root.off(off[0] * ax + off[1] * ay, place.forward))
    over, up = cos(place.heading), sin(place.heading)
    return Stand((x, y, place.up), (ax, ay, 0.0), (over * ox, over * oy, up), (-up * ox, -up * oy, over))
