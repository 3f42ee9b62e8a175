"""Seams: strips of metal added along the seam's edges, cut so that nothing stands past the rims."""

from dataclasses import dataclass
from math import acos, asin, pi, radians, tan

from bickern.geometry.polygon import ArcSeg, Line, Point, seg_length, seg_mirrored
from bickern.parts.sheet.allowances import GrooveRule, SheetRules
from bickern.parts.sheet.chain import Chain, Spot, spot_at
from bickern.parts.sheet.net import Net
from bickern.parts.sheet.result import PatternLine
from bickern.parts.sheet.spec import Seam, SeamKind

LAPS = (SeamKind.LAP, SeamKind.RIVETED, SeamKind.BRAZED)
"""Seams where one edge lies over the other."""
_POINT_CUT = radians(45)


@dataclass(frozen=True, slots=True)
class Shares:
    """Width [m] added outside the seam's start and end edges."""

    start: float = 0.0
    end: float = 0.0


def shares(seam: Seam, thick: float, rules: SheetRules) -> Shares:
    """What the seam adds on either edge; a grooved seam is shared by the shop's rule."""
    if seam.kind in LAPS:
        return Shares(0.0, seam.width)
    if seam.kind is not SeamKind.GROOVED:
        return Shares()
    total = rules.groove_widths * seam.width + rules.groove_extra * thick
    if rules.groove is GrooveRule.HALVES:
        return Shares(total / 2, total / 2)
    return Shares(seam.width, total - seam.width)


def end_strip(net: Net, width: float) -> Chain:
    """From the bottom to the top corner of the seam's end, round the strip of `width` [m]; the plain edge where 0."""
    if width <= 0.0:
        return (net.end,)
    low, high = lean(net)
    edge = _spot(net.end)
    length = seg_length(net.end)
    last = net.bottom[-1]
    if _round_apex(net):
        assert isinstance(last, ArcSeg)
        sweep = asin(width / last.radius)
        rim = ArcSeg(last.centre, last.radius, last.start_angle + last.sweep, sweep)
        # The strip's outer line leaves the arc where it is `width` away from the seam.
        from_apex = (last.radius**2 - width**2) ** 0.5
        out = edge.off(last.radius - from_apex, width)
        return (rim, *_up(out, edge.off(length - trimmed(width, high), width), net.end.end))
    out = edge.off(trimmed(width, low), width)
    return (Line(net.end.start, out), *_up(out, edge.off(length - trimmed(width, high), width), net.end.end))


def start_strip(net: Net, width: float) -> Chain:
    """From the top to the bottom corner of the seam's start, round the strip of `width` [m]."""
    mirrored = end_strip(_mirrored(net), width)
    return tuple(seg_mirrored(seg) for seg in reversed(mirrored))


def lean(net: Net) -> tuple[float, float]:
    """The angles [rad] that a strip's ends keep from the seam: square, or less where the rim leans (bottom, top)."""
    if _round_apex(net):
        assert isinstance(net.bottom[-1], ArcSeg)
        return pi / 2, pi / 2 if net.top else min(_POINT_CUT, sum(abs(getattr(s, "sweep", 0.0)) for s in net.bottom))
    low = min(_corner(net.start, net.bottom[0]), _corner(net.end, net.bottom[-1], ending=True))
    if not net.top:
        return min(pi / 2, low), _POINT_CUT
    high = min(_corner(net.start, net.top[0], top=True), _corner(net.end, net.top[-1], ending=True, top=True))
    return min(pi / 2, low), min(pi / 2, high)


def seam_lines(net: Net, seam: Seam, rules: SheetRules, added: Shares) -> tuple[PatternLine, ...]:
    """Lap lines, fold lines of a groove: the net's own seam edges and where the other edge comes to."""
    if seam.kind in LAPS:
        return (
            PatternLine(net.end, "lap", "lap line: the other edge comes here"),
            PatternLine(beside(net.start, -seam.width), "lap", f"{seam.kind}: the lap's edge comes here"),
        )
    if seam.kind is not SeamKind.GROOVED:
        return ()
    # A grooved edge is hooked one seam width from where it is cut; the two edges are hooked opposite ways.
    return (
        PatternLine(beside(net.end, added.end - seam.width), "bend", "hook for the grooved seam, one way"),
        PatternLine(beside(net.start, added.start - seam.width), "bend", "hook for the grooved seam, the other way"),
    )


def beside(line: Line, outward: float) -> Line:
    """A line parallel to a seam edge, `outward` [m] of it."""
    spot = _spot(line)
    return Line(spot.off(0.0, outward), spot.off(seg_length(line), outward))


def _spot(line: Line) -> Spot:
    length = seg_length(line)
    return Spot(line.start, ((line.end[0] - line.start[0]) / length, (line.end[1] - line.start[1]) / length))


def _up(low: Point, high: Point, corner: Point) -> Chain:
    return Line(low, high), Line(high, corner)


def trimmed(width: float, angle: float) -> float:
    """How much shorter [m] a strip's outer edge is at an end cut at `angle` [rad] from the seam."""
    return 0.0 if angle >= pi / 2 - 1e-9 else width / tan(angle)


def _round_apex(net: Net) -> bool:
    """Whether the bottom is an arc struck from a point on the seam's line (a right cone), convex outward."""
    return all(isinstance(seg, ArcSeg) and seg.sweep > 0.0 for seg in net.bottom)


def _corner(edge: Line, rim: ArcSeg | Line, ending: bool = False, top: bool = False) -> float:
    """Angle [rad] inside the net between a seam edge and a rim."""
    along = spot_at((rim,), seg_length(rim) if ending else 0.0).along
    inward = (-along[0], -along[1]) if ending else along
    seam = _spot(edge).along
    # The end edge runs up, the start edge down: away from the corner is up at the bottom and down at the top.
    away = 1.0 if ending is not top else -1.0
    return acos(max(-1.0, min(1.0, away * (seam[0] * inward[0] + seam[1] * inward[1]))))


def _mirrored(net: Net) -> Net:
    """The net seen from behind (x turned about), so that its start edge is the end edge."""
    bottom = tuple(seg_mirrored(seg) for seg in reversed(net.bottom))
    top = tuple(seg_mirrored(seg) for seg in reversed(net.top))
    return Net(bottom, top, (), (-net.tip[0], net.tip[1]))
