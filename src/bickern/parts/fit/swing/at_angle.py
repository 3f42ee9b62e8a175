"""A lot turned to one angle: what it runs into there, and how near it comes to anything."""

import math
from dataclasses import dataclass
from operator import itemgetter

from bickern.geometry.pose import Pose, back, then
from bickern.geometry.solid.apart import bounds, clash, room
from bickern.parts.fit.swing.hinges import Hinge
from bickern.parts.fit.swing.turning import FROM_AFAR, NEARER_BY, Lump, lots, posed


@dataclass(frozen=True, slots=True)
class Close:
    """Two lumps, of what turns and of what stays, and the `room` between them [m]."""

    turns: Lump
    stays: Lump
    room: float


def nearest_at(hinge: Hinge, lumps: tuple[Lump, ...], angle: float) -> Close | None:
    """What comes nearest at an angle [rad] of the swing, what touches by nature left out; None where nothing is left.

    Angles within the swing are meant: of two that share room none is nearer than the other.
    """
    free = [pair for pair in _pairs(hinge, lumps, angle) if not _by_nature(hinge, *pair[:2])]
    seen = [(*bounds(s.own, t.own, FROM_AFAR, pose), t, s, pose) for t, s, pose in free]
    found: Close | None = None
    least = math.inf
    for at_least, _, t, s, pose in sorted(seen, key=itemgetter(1)):
        if at_least < least and bounds(s.own, t.own, NEARER_BY, pose)[0] < least:
            gap = room(s.own, t.own, least, pose)
            found, least = (Close(t, s, gap), gap) if gap < least else (found, least)
    return found


def clashes_at(hinge: Hinge, lumps: tuple[Lump, ...], angle: float) -> tuple[Close, ...]:
    """All that shares room at an angle [rad]; of two that hang in one another nothing is told: they bear there."""
    pairs = [pair for pair in _pairs(hinge, lumps, angle) if not (hinge.touches and _by_nature(hinge, *pair[:2]))]
    return tuple(Close(t, s, 0.0) for t, s, pose in pairs if clash(s.own, t.own, pose))


def _by_nature(hinge: Hinge, turns: Lump, stays: Lump) -> bool:
    """Whether two are joined in this very hinge."""
    return turns.part in hinge.hung and stays.part in hinge.carriers


def _pairs(hinge: Hinge, lumps: tuple[Lump, ...], angle: float) -> list[tuple[Lump, Lump, Pose]]:
    """What turns and what stays, and how the first lies in the other's coordinates."""
    turn, stay = lots(hinge, lumps)
    way = posed(hinge, angle)
    return [(t, s, then(back(s.pose), then(way, t.pose))) for t in turn for s in stay]
