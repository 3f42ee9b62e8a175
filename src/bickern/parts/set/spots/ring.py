"""Named places of a ring or link: the whole of it (one link lies about the origin, axis z, its long way along x)."""

from bickern.geometry.pose import HERE
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.result import Spot, SpotKind
from bickern.parts.set.spots.laid import BOXES
from bickern.parts.set.spots.seats import ring_seat

_NAMES = ("", "inside", "joint")
"""Where the ends of a ring meet nothing else is different: it may be turned anywhere."""


def ring_spots(ring: RingResult, place: str) -> tuple[Spot, ...]:
    """The ring itself, in its own coordinates; none where there is no such place."""
    if place not in _NAMES:
        return ()
    wire = ring.spec.wire
    straight = max(0.0, ring.inside_long - ring.inside_across)
    radius = (ring.inside_across + wire.thick) / 2
    half = (wire.width / 2, wire.thick / 2)
    seat = ring_seat(ring.spec.name, HERE, straight, radius, half, wire.shape in BOXES)
    return (Spot(ring.spec.name, SpotKind.RING, HERE, ring.inside_across, wire.thick, seat),)
