"""How far a flat bar stands off the hollow side of round sheet: its edges touch, its middle does not."""

from math import hypot, sqrt

from bickern.parts.bar.result import BarResult
from bickern.parts.set.result import Spot, SpotKind
from bickern.parts.set.roll_call import At, Roll
from bickern.parts.set.spots.bar import flat_width
from bickern.parts.set.stacks import Stack
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Cone, Cylinder

_FLAT = 1e-9


def stand_off(roll: Roll, stack: Stack, own: int, other: int) -> float:
    """Gap [m] in the middle between a flat ear and the hollow of a cone or cylinder that it is riveted against.

    R - sqrt(R^2 - (w/2)^2), which is about w^2/(8 R): w the width of the flat, lying across the curve, R the radius of
    the skin's inside there (exact mathematics, for an ear that runs straight up the skin). 0 where either lies
    otherwise: on the round outside the flat touches in its middle.
    """
    if abs(own - other) != 1:
        return 0.0
    outer, inner = (stack.ats[i] for i in sorted((own, other)))  # the first named lies outermost
    sheet = roll.singles[outer.part].piece
    if not isinstance(sheet, SheetResult) or outer.spot.kind is not SpotKind.OPENING:
        return 0.0
    wide = _width(roll, inner)
    radius = _radius(sheet, outer.spot)
    return radius - sqrt(radius**2 - wide**2 / 4) if radius is not None and radius > wide / 2 else 0.0


def _width(roll: Roll, at: At) -> float:
    """How wide [m] the flat face is that the hole at a place goes through; 0 where it is round, or no hole in a bar."""
    bar = roll.singles[at.part].piece
    return flat_width(bar, at.spot) if isinstance(bar, BarResult) and at.spot.kind is SpotKind.OPENING else 0.0


def _radius(sheet: SheetResult, spot: Spot) -> float | None:
    """Radius [m] of the skin's inside about its axis, along the way through the skin; None where it is not round."""
    surface = sheet.spec.surface
    if not isinstance(surface, Cone | Cylinder) or (isinstance(surface, Cone) and surface.offset != (0.0, 0.0)):
        return None
    out = hypot(spot.pose.z[0], spot.pose.z[1])
    reach = hypot(spot.pose.origin[0], spot.pose.origin[1])
    return reach / out - spot.plate / 2 if out > _FLAT else None
