"""Loose lines and arcs of a drawing put end to end into closed outlines."""

from dataclasses import dataclass
from math import cos, hypot, pi, sin

from bickern.geometry.polygon import ArcSeg, Line, Loop, Point, Seg, points
from bickern.measure.finding import Finding, note, stop
from bickern.measure.units.words import Read
from bickern.parts.sheet.spec import FlatOutline

CLOSES = 5e-5
"""[m] Gaps up to this are closed, with a note: a drawing's own rounding."""
FLAT = 2e-5
"""[m] How far straight pieces may stray from a curve that is neither line nor arc."""
MOST_SEGS = 20_000


def start_of(seg: Seg) -> Point:
    """Where a line or arc begins [m]."""
    return seg.start if isinstance(seg, Line) else _on(seg, seg.start_angle)


def end_of(seg: Seg) -> Point:
    """Where it ends [m]."""
    return seg.end if isinstance(seg, Line) else _on(seg, seg.start_angle + seg.sweep)


def _on(arc: ArcSeg, angle: float) -> Point:
    return arc.centre[0] + arc.radius * cos(angle), arc.centre[1] + arc.radius * sin(angle)


def turned_round(seg: Seg) -> Seg:
    """The same line or arc, run the other way."""
    if isinstance(seg, Line):
        return Line(seg.end, seg.start)
    return ArcSeg(seg.centre, seg.radius, seg.start_angle + seg.sweep, -seg.sweep)


def lines_through(points: list[Point], closed: bool = False) -> list[Seg]:
    """Straight pieces from point to point; points that fall together give none."""
    ends = points[1:] + (points[:1] if closed else [])
    return [Line(a, b) for a, b in zip(points, ends, strict=False) if hypot(a[0] - b[0], a[1] - b[1]) > 1e-9]


@dataclass(slots=True)
class _Joined:
    """A chain of pieces, and the widest gap that was closed in it [m]."""

    segs: list[Seg]
    gap: float = 0.0


def outline_from(segs: list[Seg]) -> Read[FlatOutline]:
    """The biggest closed outline with the others in it as holes; what does not close is a finding with the gap."""
    if not segs:
        return Read(
            None, (stop("no-outline", "there are no lines, arcs or curves in this drawing", "is it the right file?"),)
        )
    if len(segs) > MOST_SEGS:
        return Read(None, (stop("too-large", f"this drawing has {len(segs)} pieces of line", "draw it with fewer"),))
    loops, findings = [], []
    for chain in _chains([s for s in segs if _length(s) > 1e-9]):
        gap = _apart(end_of(chain.segs[-1]), start_of(chain.segs[0]))
        if gap > CLOSES:
            findings.append(_open(chain, gap))
            continue
        widest = max(gap, chain.gap)
        if widest > 1e-7:
            findings.append(note("gap-closed", f"a gap of {widest * 1000:.3f} mm in the outline was closed"))
        loops.append(Loop(tuple(_tied(chain.segs))))
    if any(f.stops for f in findings) or not loops:
        return Read(None, tuple(findings) or (stop("no-outline", "nothing in this drawing is closed", ""),))
    return _nested(loops, findings)


def _open(chain: _Joined, gap: float) -> Finding:
    x, y = end_of(chain.segs[-1])
    says = f"the outline is open by {gap * 1000:.2f} mm at x {x * 1000:.2f}, y {y * 1000:.2f} mm"
    return stop("outline-open", says, f"close it in the drawing; gaps up to {CLOSES * 1000:g} mm are closed here")


def _chains(segs: list[Seg]) -> list[_Joined]:
    """Pieces strung together where their ends meet, looked up by a grid of cells as wide as the gap allowed."""
    ends: dict[tuple[int, int], list[int]] = {}
    for i, seg in enumerate(segs):
        for point in (start_of(seg), end_of(seg)):
            ends.setdefault(_cell(point), []).append(i)
    left, found = dict.fromkeys(range(len(segs))), []
    while left:
        first = next(iter(left))
        del left[first]
        found.append(_strung(segs, first, ends, left))
    return found


def _strung(segs: list[Seg], first: int, ends: dict[tuple[int, int], list[int]], left: dict[int, None]) -> _Joined:
    chain = _Joined([segs[first]])
    while _apart(end_of(chain.segs[-1]), start_of(chain.segs[0])) > 1e-9 or len(chain.segs) == 1:
        here = end_of(chain.segs[-1])
        near = [
            (min(_apart(here, start_of(segs[i])), _apart(here, end_of(segs[i]))), i)
            for i in _near(here, ends)
            if i in left
        ]
        best = min(near, default=(1.0, -1))
        closing = _apart(here, start_of(chain.segs[0])) if len(chain.segs) > 1 else 1.0
        if best[0] > CLOSES or closing <= min(best[0], CLOSES):
            break
        seg = segs[best[1]]
        del left[best[1]]
        chain.gap = max(chain.gap, best[0])
        chain.segs.append(seg if _apart(here, start_of(seg)) <= _apart(here, end_of(seg)) else turned_round(seg))
    return chain


def _cell(point: Point) -> tuple[int, int]:
    return round(point[0] / CLOSES), round(point[1] / CLOSES)


def _near(point: Point, ends: dict[tuple[int, int], list[int]]) -> list[int]:
    x, y = _cell(point)
    return [i for dx in (-1, 0, 1) for dy in (-1, 0, 1) for i in ends.get((x + dx, y + dy), ())]


def _apart(a: Point, b: Point) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def _length(seg: Seg) -> float:
    return _apart(seg.start, seg.end) if isinstance(seg, Line) else abs(seg.sweep) * seg.radius


def _tied(segs: list[Seg]) -> list[Seg]:
    """Lines drawn to meet the piece before them, so that the loop has no gap; arcs are left as they are."""
    tied = list(segs)
    for i, seg in enumerate(tied):
        if isinstance(seg, Line):
            tied[i] = Line(end_of(tied[i - 1]), start_of(tied[(i + 1) % len(tied)]) if len(tied) > 1 else seg.end)
    return tied


def signed_area(loop: Loop) -> float:
    """Area [m2], positive where the loop runs counter-clockwise."""
    total = 0.0
    for seg in loop.segs:
        a, b = start_of(seg), end_of(seg)
        total += (a[0] * b[1] - b[0] * a[1]) / 2
        if isinstance(seg, ArcSeg):
            total += seg.radius**2 * (seg.sweep - sin(seg.sweep)) / 2
    return total


def _nested(loops: list[Loop], findings: list[Finding]) -> Read[FlatOutline]:
    """The biggest loop outside, counter-clockwise; the others inside it, clockwise."""
    by_size = sorted(loops, key=lambda loop: -abs(signed_area(loop)))
    if abs(signed_area(by_size[0])) < 1e-9:
        return Read(None, (*findings, stop("no-outline", "the outline goes round nothing", "")))
    outer = _run(by_size[0], 1.0)
    outside = [n for n in by_size[1:] if not _inside(start_of(n.segs[0]), outer) and not _crosses(n, outer)]
    if outside:
        says = f"{len(outside)} closed lines lie outside the biggest outline"
        return Read(None, (*findings, stop("two-outlines", says, "keep one piece in one file")))
    return Read(FlatOutline(outer, tuple(_run(loop, -1.0) for loop in by_size[1:])), tuple(findings))


def _crosses(loop: Loop, outer: Loop) -> bool:
    """Whether a loop runs over the outline: it is meant as a cut-out of it, wherever it starts."""
    from shapely import LineString

    a, b = (LineString([*(spots := points(one)), spots[0]]) for one in (loop, outer))
    return bool(a.intersects(b))


def _run(loop: Loop, way: float) -> Loop:
    if signed_area(loop) * way >= 0:
        return loop
    return Loop(tuple(turned_round(s) for s in reversed(loop.segs)))


def _inside(point: Point, loop: Loop) -> bool:
    """Whether a point is inside, by the angle that the outline sweeps about it."""
    from math import atan2

    turned = 0.0
    for seg in loop.segs:
        n = max(1, round(abs(seg.sweep) / (pi / 16))) if isinstance(seg, ArcSeg) else 1
        last = start_of(seg)
        for i in range(1, n + 1):
            here = _on(seg, seg.start_angle + seg.sweep * i / n) if isinstance(seg, ArcSeg) else seg.end
            a = atan2(last[1] - point[1], last[0] - point[0])
            b = atan2(here[1] - point[1], here[0] - point[0])
            turned += (b - a + pi) % (2 * pi) - pi
            last = here
    return abs(turned) > pi
