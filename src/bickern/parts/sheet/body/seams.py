"""What a seam does to its edges when it is closed: laps lifted over the other edge, hooks of a grooved seam."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.polygon import Line, Point, seg_length, seg_points
from bickern.parts.sheet.body.patches import turned
from bickern.parts.sheet.body.profile import HAIR, Profile, Turn, bent, breaks, ended, ramp
from bickern.parts.sheet.body.rulings import Lines
from bickern.parts.sheet.chain import Chain, Spot, spot_at
from bickern.parts.sheet.net import Net
from bickern.parts.sheet.spec import Seam, SeamKind
from bickern.parts.sheet.trim import LAPS, Shares, end_strip, start_strip

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Flags = NDArray[np.bool_]

_RUN = 4.0
"""Length of a joggle in thicknesses of what it rises by (chosen here: a slope of one in four)."""
_FADES = 4.0
"""A seam comes down toward a tip over so many of its joggle's lengths (chosen here)."""


@dataclass(frozen=True, slots=True)
class SeamEdge:
    """One edge of a seam (outside on its right), the strip beyond it, and how it is turned from `begins` [m] on.

    A plain edge has no strip: it stands back by `gap` [m], so that both edges of a butt do not touch. Beside the edge
    its rims may reach past its ends by `past` [m]. Toward a tip a seam comes down again over `fades` [m]: there is no
    room for layers there, and they run into one another.
    """

    line: Line
    strip: tuple[Point, ...] = ()
    begins: float = 0.0
    profile: Profile = ()
    gap: float = 0.0
    past: float = 0.0
    fades: float = 0.0


def seam_edges(net: Net, seam: Seam, thick: float, added: Shares, gap: float) -> tuple[SeamEdge, SeamEdge]:
    """The end and the start edge of a net's seam, as they are when it is closed.

    The lap goes outside. Where it lies over the other edge it keeps its place round, so that rivet holes meet. In a
    grooved seam four layers lie on one another: the start edge, the end's hook, the start's hook, the end edge.
    """
    if seam.kind in LAPS and added.end > 0.0:
        level = thick + 2 * HAIR
        lift = ramp(level, _RUN * level)
        begins = -_RUN * level - thick / 2
        lap = SeamEdge(net.end, _corners(end_strip(net, added.end)), begins, lift, **_past(net, begins))
        return lap, SeamEdge(net.start)
    if seam.kind is SeamKind.GROOVED and added.start + added.end > 0.0:
        return _grooved(net, seam, thick, added)
    return SeamEdge(net.end, gap=gap), SeamEdge(net.start, gap=gap)


def _grooved(net: Net, seam: Seam, thick: float, added: Shares) -> tuple[SeamEdge, SeamEdge]:
    layer = thick + HAIR
    under, over = max(0.0, added.start - seam.width), max(0.0, added.end - seam.width)
    # the end edge is up on its level before it comes to the bend of the start's hook
    clear = under + layer + thick
    lift = ramp(3 * layer, _RUN * 3 * layer)
    begins = -clear - _RUN * 3 * layer
    up = (*lift, Turn(clear + over), bent(layer, -np.pi))
    first = SeamEdge(
        net.end, _corners(end_strip(net, added.end)), begins, ended(up, added.end - begins), **_past(net, begins)
    )
    hook = ended((Turn(under), bent(layer, np.pi)), added.start)
    return first, SeamEdge(net.start, _corners(start_strip(net, added.start)), 0.0, hook)


def _past(net: Net, begins: float) -> dict[str, float]:
    """How far past an edge's ends its rims may reach, and how long before a tip the seam comes down [m]."""
    return {"past": -begins} if net.top else {"fades": min(-_FADES * begins, seg_length(net.end) / 2)}


def _corners(strip: Chain) -> tuple[Point, ...]:
    """The strip's own outline, coarsely: it is asked only whether a place is in it."""
    return tuple(p for seg in strip for p in seg_points(seg, 1e-6))


def seam_lines(edge: SeamEdge, step: float) -> Lines:
    """Lines along the edge at which its turns begin, end, or have turned by a step [rad]."""
    if not edge.profile:
        return ()
    length, over = seg_length(edge.line), edge.past + 1e-6
    rows = [edge.begins + b for b in breaks(edge.profile, step)]
    spot = spot_at((edge.line,), 0.0)
    # longer than the edge, so that a row crosses what it ends on
    found = [_line(spot, (-over, b), (length + over, b)) for b in rows]
    if edge.fades:
        found.append(_line(spot, (length - edge.fades, rows[0]), (length - edge.fades, length)))
    return tuple(found)


def _line(spot: Spot, start: Point, end: Point) -> tuple[Point, Point]:
    return spot.off(*start), spot.off(*end)


def inside(edge: SeamEdge, near: "Array") -> "Array":
    """Places (n, 2) in the strip beyond the edge brought back over it onto the skin, others left where they are."""
    if not edge.strip:
        return near
    spot, mine = spot_at((edge.line,), 0.0), _in_strip(edge, near)
    along, _ = _off(spot, near)
    back = np.array(spot.point) + np.clip(along, 0.0, 0.999 * seg_length(edge.line))[:, None] * np.array(spot.along)
    return np.where(mine[:, None], back - 1e-6 * np.array(spot.outward), near)


def closed(edge: SeamEdge, flat: "Array", near: "Array") -> "tuple[Array, Array]":
    """Flat points (n, 2) moved as the seam's edge is turned, and how far (n,) they are lifted [m]."""
    spot = spot_at((edge.line,), 0.0)
    along, out = _off(spot, flat)
    past = edge.past + 1e-6
    beside_it = (along > -past) & (along < seg_length(edge.line) + past)
    lift, move = np.zeros(len(flat)), np.zeros(len(flat))
    if edge.gap:
        close = beside_it & (out > -edge.gap) & (out < 1e-6)
        move[close] = -edge.gap - out[close]
    if edge.profile:
        mine = (out > edge.begins) & ((beside_it & (out < 1e-6)) | _in_strip(edge, near))
        forward, up, _ = turned(edge.profile, out[mine] - edge.begins)
        move[mine], lift[mine] = edge.begins + forward - out[mine], up
    if edge.fades:
        lift *= np.clip((seg_length(edge.line) - along) / edge.fades, 0.0, 1.0)
    return flat + move[:, None] * np.array(spot.outward), lift


def _off(spot: Spot, flat: "Array") -> "tuple[Array, Array]":
    off = flat - np.array(spot.point)
    return off @ np.array(spot.along), off @ np.array(spot.outward)


def _in_strip(edge: SeamEdge, near: "Array") -> "Flags":
    import shapely

    inside: Flags = shapely.contains_xy(
        shapely.Polygon([edge.line.start, *edge.strip, edge.line.end]), near[:, 0], near[:, 1]
    )
    return inside
