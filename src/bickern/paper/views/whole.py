"""A whole set as it hangs or stands: three true elevations and a picture from aside, hidden lines left out.

Nothing is worked out here but where the eye is: which lines are seen is found in `geometry/solid/sight`.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bickern.geometry.solid.solid import Named
from bickern.geometry.space import Vec, cross, dot, mixed, times, unit
from bickern.paper.marks import Box, Drawing, Layer, Point, Polyline

FRONT = "front"
"""The view that has the sizes."""
UP: Vec = (0.0, 0.0, 1.0)
ASIDE, ABOVE = math.radians(35.0), math.radians(25.0)
"""Where the eye of the picture is: so far round from the front, so far up [rad]."""
TURNS = 180
"""Directions in which the front is looked for, over a half turn."""
KEPT = 0.98
"""The world's own axes are kept unless the parts' boxes are smaller than this share another way round."""
DOTS = 1000
"""Grain on which it is found what hides what, along the longer side of a view."""
BEHIND = 0.1
"""Cosine from which on a face counts as looking away."""
LONG = 4
"""Power of a part's length by which one side is weighed against the other: the longest part decides."""


@dataclass(frozen=True, slots=True)
class Look:
    """One way of looking: its title, and which ways of the world are `right` and `upward` on the paper."""

    title: str
    right: Vec
    upward: Vec

    @property
    def toward(self) -> Vec:
        """Out of the paper, to the eye."""
        return cross(self.right, self.upward)

    def put(self, place: Vec) -> Point:
        """Where a place of the world [m] falls on the paper [m]."""
        return (dot(place, self.right), dot(place, self.upward))


def looks(solids: Sequence[Named], face: Vec = (0.0, 0.0, 0.0)) -> tuple[Look, Look, Look, Look]:
    """From the front, where it is broadest; from the right; from above; and from aside and a little above.

    `face`: what looks that way is seen from the front rather than from behind.
    """
    right = broadest(solids)
    if dot(cross(right, UP), face) < -BEHIND:
        right = times(right, -1.0)
    toward = cross(right, UP)
    back = cross(UP, right)
    flat = mixed(toward, math.cos(ASIDE), right, math.sin(ASIDE))
    eye = mixed(flat, math.cos(ABOVE), UP, math.sin(ABOVE))
    across = unit(cross(UP, eye))
    return (
        Look(FRONT, right, UP),
        Look("right side", back, UP),
        Look("top", right, back),
        Look("picture", across, cross(eye, across)),
    )


def broadest(solids: Sequence[Named]) -> Vec:
    """The level direction in which parts are seen squarely, and the long ones from their long side.

    So a ring, a bent bar or a tray is looked at square to its sides, and links of a chain that lie crosswise are not
    all seen at a slant. Where no way is better than the world's own axes, those.
    """
    spans = [_spans(one) for one in solids]
    quarter = TURNS // 2
    boxes = [sum(way[i] * way[i + quarter] for way in spans) for i in range(quarter)]
    best = min(range(quarter), key=boxes.__getitem__)
    best = best if boxes[best] < KEPT * boxes[0] else 0
    along, across = (sum(way[i] ** LONG for way in spans) for i in (best, best + quarter))
    angle = math.pi * (best + (quarter if across > along / KEPT else 0)) / TURNS
    return (math.cos(angle), math.sin(angle), 0.0)


def _spans(one: Named) -> "list[float]":
    """A part's size along each direction of a half turn [m]."""
    import numpy as np

    angles = np.pi * np.arange(TURNS) / TURNS
    along = one.solid.points[:, :2] @ np.array((np.cos(angles), np.sin(angles)))
    spans: list[float] = (along.max(axis=0) - along.min(axis=0)).tolist()
    return spans


def frame(solids: Sequence[Named], look: Look) -> Box:
    """The box in which the set is seen that way, at full size [m]."""
    import numpy as np

    axes = np.array((look.right, look.upward)).T
    ends = [(flat.min(axis=0), flat.max(axis=0)) for flat in (one.solid.points @ axes for one in solids)]
    (left, bottom), (right, top) = np.min([low for low, _ in ends], axis=0), np.max([high for _, high in ends], axis=0)
    return Box(float(left), float(bottom), float(right), float(top))


def seen(solids: Sequence[Named], look: Look, dots: int = DOTS) -> Drawing:
    """What is seen that way, at full size [m]; hidden lines are left out, found on a grain of so many `dots`."""
    from bickern.geometry.solid.sight import seen_lines

    lines = seen_lines(solids, look.right, look.upward, dots, hidden=False).visible
    marks = tuple(Polyline(tuple(line), layer=Layer.SEEN) for line in lines if len(line) > 1)
    return Drawing(marks, frame(solids, look))
