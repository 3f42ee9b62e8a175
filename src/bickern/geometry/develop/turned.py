"""The right cone and frustum, and the cylinder, straight or cut at an angle: exact sectors and rectangles."""

import math
from dataclasses import dataclass

from bickern.geometry.develop.pattern import Development, Seam, joined, strip_edges
from bickern.geometry.develop.rolling import ConeRoll, CylinderRoll
from bickern.geometry.polygon import ArcSeg, Line, Point, Seg, on_arc, seg_end, seg_start
from bickern.measure.finding import Finding, note, stop
from bickern.measure.units.words import Read

FAR_APEX = 20.0
"""A swing point farther off than so many base diameters is called out: no bench holds the trammel (our own choice)."""


@dataclass(frozen=True, slots=True)
class ConeSizes:
    """What a cone is struck with [m, rad]: `slant` height, swing radii `outer` and `inner`, sector `angle`."""

    slant: float
    outer: float
    inner: float
    angle: float


def cone_sizes(base: float, top: float, height: float) -> ConeSizes:
    """Sizes of the sector of a right cone or frustum with radii `base` != `top` and `height` > 0 [m]. Exact.

    slant = sqrt(h^2 + (R - r)^2); swing radius = slant R / (R - r); angle = 2 pi (R - r) / slant.
    """
    big, small = max(base, top), min(base, top)
    slant = math.hypot(height, big - small)
    outer = slant * big / (big - small)
    return ConeSizes(slant, outer, outer - slant, 2 * math.pi * (big - small) / slant)


def cone(base: float, top: float, height: float) -> Read[Development]:
    """A right cone or frustum with radii `base` (z = 0) and `top` (z = height) [m], the seam at +x.

    Either end may be the larger; equal ends are laid out as a cylinder.
    """
    faults = impossible(base, top, height)
    if faults:
        return Read(None, faults)
    if abs(base - top) <= 1e-9 * max(base, top):
        return cylinder(base, height)
    sizes = cone_sizes(base, top, height)
    hand = 1.0 if base > top else -1.0
    roll = ConeRoll(
        apex=(0.0, 0.0),
        half_angle=math.atan2(abs(base - top), height),
        apex_height=height * base / (base - top),
        hand=hand,
        middle=-hand * math.pi / 2,
        space=math.pi,
    )
    big, small = _arc(roll, sizes.outer, sizes.angle), _arc(roll, sizes.inner, sizes.angle)
    low, high = (big, small) if base > top else (small, big)
    seam = Seam(Line(on_arc(low, 0.0), on_arc(high, 0.0)), Line(on_arc(low, 1.0), on_arc(high, 1.0)))
    edges = strip_edges(_rim(low), seam.last, _rim(high), seam.first)
    return Read(Development(edges, roll, seams=(seam,)), far_apex(sizes.outer, 2 * max(base, top)))


def cylinder(radius: float, height: float, cut: float = 0.0, tolerance: float = 2e-5) -> Read[Development]:
    """A cylinder of `radius` and `height` on its axis [m]; `cut` [rad] tilts its upper end, lowest at the seam (+x).

    A cut end develops into a sine curve: straights leave it by no more than `tolerance` [m].
    """
    faults = impossible(radius, radius, height)
    if faults:
        return Read(None, faults)
    if abs(cut) >= math.pi / 2 or height <= radius * math.tan(abs(cut)):
        says = "the slanted cut passes through the bottom of the cylinder"
        return Read(None, (stop("cut-through-base", says, "a taller cylinder, or a flatter cut"),))
    half = math.pi * radius
    rise = radius * math.tan(cut)
    top = _sine(radius, height, rise, tolerance)
    base: tuple[Seg, ...] = (Line((-half, 0.0), (half, 0.0)),)
    seam = Seam(Line((-half, 0.0), seg_start(top[0])), Line((half, 0.0), seg_end(top[-1])))
    stray = _sine_stray(radius, rise, len(top)) if cut else 0.0
    roll = CylinderRoll(radius, start=0.0, space=math.pi)
    return Read(Development(strip_edges(base, seam.last, top, seam.first), roll, seams=(seam,), stray=stray))


def impossible(base: float, top: float, height: float) -> tuple[Finding, ...]:
    """Stops for ends and heights that no turned surface can have."""
    if not all(math.isfinite(v) for v in (base, top, height)):
        return (stop("not-a-size", "a size of this surface is not a number"),)
    found = []
    if height <= 0:
        found.append(stop("no-height", "the height is nothing, so this is a flat ring and not a cone", "give a height"))
    if base < 0 or top < 0 or max(base, top) <= 0:
        found.append(stop("no-width", "the ends must be wider than nothing", "give the size across each end"))
    return tuple(found)


def far_apex(swing: float, across: float) -> tuple[Finding, ...]:
    """A note where the swing point lies too far off to swing an arc from; the pattern is exact all the same."""
    if swing <= FAR_APEX * across:
        return ()
    says = f"the swing point lies {swing / across:.0f} base widths away: nearly a cylinder, too far to swing the arc"
    return (note("far-apex", says, "lay the curve out by its points, or print the pattern full size"),)


def _arc(roll: ConeRoll, radius: float, angle: float) -> ArcSeg:
    return ArcSeg(roll.apex, radius, roll.middle - roll.hand * angle / 2, roll.hand * angle)


def _rim(arc: ArcSeg) -> tuple[Seg, ...]:
    return (arc,) if arc.radius > 0 else ()


def _sine(radius: float, height: float, rise: float, tolerance: float) -> tuple[Seg, ...]:
    half = math.pi * radius
    if not rise:
        return (Line((-half, height), (half, height)),)
    # a chord over an angle a of a curve of height `rise` strays by rise a^2 / 8 at most
    step = math.sqrt(8 * tolerance / abs(rise))
    count = max(12, math.ceil(2 * math.pi / step))
    turns = [-math.pi + 2 * math.pi * i / count for i in range(count + 1)]
    places: list[Point] = [(radius * t, height + rise * math.cos(t)) for t in turns]
    return joined(places)


def _sine_stray(radius: float, rise: float, count: int) -> float:
    return abs(rise) * (1 - math.cos(math.pi / count))
