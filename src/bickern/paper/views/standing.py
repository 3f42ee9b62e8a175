"""Every finished piece as it stands, bare of sizes: small pictures to know a piece by, at any scale."""

from bickern.paper.copy import PieceResult
from bickern.paper.marks import Arc, Box, Drawing, Layer, Line, Mark, Polyline, drawing, rectangle, scaled
from bickern.paper.views.outline import bare_outlines
from bickern.paper.views.ring import ring_outline
from bickern.paper.views.sheet import bare_pattern
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl, Cone, Cylinder, Pan, Pyramid, Surface


def standing(piece: PieceResult) -> Drawing:
    """The finished piece at full size [m]: a bar from the side that shows most of it, a sheet piece from the side."""
    if isinstance(piece, BarResult):
        return max(bare_outlines(piece), key=lambda view: view.bounds.width * view.bounds.height)
    return ring_outline(piece) if isinstance(piece, RingResult) else sheet_side(piece)


def small(piece: PieceResult, room: tuple[float, float]) -> Drawing:
    """The finished piece as large as goes into the room (wide, high) [m], and not over full size."""
    picture = standing(piece)
    wide, high = max(picture.bounds.width, 1e-9), max(picture.bounds.height, 1e-9)
    return scaled(picture, min(1.0, room[0] / wide, room[1] / high))


def sheet_side(sheet: SheetResult) -> Drawing:
    """A sheet piece rolled or folded, from the side; a free outline or a transition as its pattern lies."""
    sides = _sides(sheet.spec.surface)
    return drawing(sides) if sides else bare_pattern(sheet.patterns[0]) if sheet.patterns else drawing([])


def _sides(surface: Surface) -> list[Mark]:
    match surface:
        case Cone():
            return _tapered(surface.base, surface.top, surface.height, surface.offset[0])
        case Cylinder():
            return _tapered(surface.across, surface.across, surface.height, 0.0)
        case Pyramid():
            base, top = surface.base_long or surface.base, surface.top_long or surface.top
            return _tapered(base, top, surface.height, surface.offset[0])
        case Pan():
            return _pan(surface)
        case Bowl():
            return _bowl(surface.rim, surface.depth)
    return []


def _tapered(base: float, top: float, high: float, aside: float) -> list[Mark]:
    points = ((-base / 2, 0.0), (base / 2, 0.0), (aside + top / 2, high), (aside - top / 2, high))
    return [Polyline(points, closed=True)]


def _pan(pan: Pan) -> list[Mark]:
    """Looked into from above: the bottom inside its walls, the corners joined."""
    from math import hypot

    inner = Box(0.0, 0.0, pan.long, pan.wide)
    lean = min(pan.high, 0.15 * hypot(pan.long, pan.wide))
    walls = {"left": lean, "front": lean, "right": lean, "back": lean}
    out = {side: (by if side in pan.walls else 0.0) for side, by in walls.items()}
    outer = Box(-out["left"], -out["front"], pan.long + out["right"], pan.wide + out["back"])
    corners = [
        Line((x, y), (u, v), Layer.DIMENSION)
        for x, u in ((inner.left, outer.left), (inner.right, outer.right))
        for y, v in ((inner.bottom, outer.bottom), (inner.top, outer.top))
        if x != u and y != v
    ]
    return [rectangle(outer), rectangle(inner, Layer.DIMENSION), *corners]


def _bowl(rim: float, depth: float) -> list[Mark]:
    """A cap of a ball, its rim up."""
    from math import asin, pi

    if depth <= 0:
        return [Line((-rim / 2, 0.0), (rim / 2, 0.0))]
    radius = (rim**2 / 4 + depth**2) / (2 * depth)
    half = asin(min(1.0, rim / 2 / radius))
    half = half if depth <= radius else pi - half
    return [
        Line((-rim / 2, depth), (rim / 2, depth)),
        Arc((0.0, radius), radius, -pi / 2 - half, 2 * half),
    ]
