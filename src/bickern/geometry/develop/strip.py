"""A strip of flat facets between rungs, laid out flat one after another from its edge lengths, and folded up again."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from bickern.geometry.develop.pattern import Bend, Development, Seam, joined, levelled, strip_edges
from bickern.geometry.develop.rolling import Facet, FoldRoll, Placement
from bickern.geometry.polygon import Line, Point, on_seg
from bickern.geometry.space import Vec, cross, distance, dot, minus, mixed, norm, unit

FOLD = math.radians(7.5)
"""Bend lines are drawn where so much turn has gathered since the last one (our own choice: 48 to a full round)."""


@dataclass(frozen=True, slots=True)
class Rung:
    """A straight across the strip, `low` to `high` [m] in space; rungs are read to the right, seen from outside."""

    low: Vec
    high: Vec


def laid_flat(rungs: Sequence[Rung], plain: Sequence[bool] = (), stray: float = 0.0) -> Development:
    """The strip between rungs laid flat; neighbouring rungs must span a flat facet (a triangle, or a flat four-corner).

    `plain[k]` says that facet k is a flat piece of its own (its edges are bent sharply, not rolled over).
    """
    cells = [_cell(a, b) for a, b in pairwise(rungs)]
    lines = _flat_rungs(rungs, cells)
    angles = [_fold(cells[k - 1], cells[k], rungs[k]) for k in range(1, len(cells))]
    facets = facets_between(lines, [0.0, *angles, 0.0])
    seam = Seam(lines[0], lines[-1])
    base, top = (joined([getattr(line, end) for line in lines]) for end in ("start", "end"))
    return levelled(
        Development(
            edges=strip_edges(base, seam.last, top, seam.first),
            roll=FoldRoll(facets, _root(cells[0], rungs[0], lines[0])),
            bends=_bends(lines, angles, plain or [True] * len(cells)),
            seams=(seam,),
            stray=stray,
        )
    )


def facets_between(rungs: Sequence[Line], angles: Sequence[float]) -> tuple[Facet, ...]:
    """Flat facets between flat rungs, each hanging on the one before; `angles[k]` is the fold at rung k [rad]."""
    return tuple(Facet(_corners(a, b), k - 1, a, angles[k] if k else 0.0) for k, (a, b) in enumerate(pairwise(rungs)))


@dataclass(frozen=True, slots=True)
class _Cell:
    """One facet: unit vectors `right` and `up` (along its first rung) in its plane, and `out`, its outward normal."""

    right: Vec
    up: Vec
    out: Vec


def _cell(a: Rung, b: Rung) -> _Cell:
    up = unit(minus(a.high, a.low))
    across = max((minus(b.low, a.low), minus(b.high, a.high)), key=norm)
    right = unit(mixed(across, 1.0, up, -dot(across, up)))
    return _Cell(right, up, cross(right, up))


def _flat_rungs(rungs: Sequence[Rung], cells: Sequence[_Cell]) -> list[Line]:
    lines = [Line((0.0, 0.0), (0.0, distance(rungs[0].low, rungs[0].high)))]
    for k, cell in enumerate(cells):
        before, nxt = rungs[k], rungs[k + 1]
        lines.append(
            Line(_put(lines[-1], cell, minus(nxt.low, before.low)), _put(lines[-1], cell, minus(nxt.high, before.low)))
        )
    return lines


def _put(line: Line, cell: _Cell, v: Vec) -> Point:
    """The flat place of a facet's corner, told from the low end of its first rung."""
    (x0, y0), (x1, y1) = line.start, line.end
    long = math.hypot(x1 - x0, y1 - y0)
    ux, uy = (x1 - x0) / long, (y1 - y0) / long
    right, up = dot(v, cell.right), dot(v, cell.up)
    return (x0 + up * ux + right * uy, y0 + up * uy - right * ux)


def _corners(a: Line, b: Line) -> tuple[Point, ...]:
    four = (a.start, b.start, b.end, a.end)
    return tuple(p for i, p in enumerate(four) if math.dist(p, four[i - 1]) > 1e-12)


def _fold(a: _Cell, b: _Cell, rung: Rung) -> float:
    """Fold [rad] at the rung between two facets, positive toward the outside, where the looker stands."""
    axis = unit(minus(rung.high, rung.low))
    return -math.atan2(dot(cross(a.out, b.out), axis), dot(a.out, b.out))


def _root(cell: _Cell, rung: Rung, line: Line) -> Placement:
    """The first facet in space: its first rung lies along flat +y from the flat origin."""
    return Placement(
        mixed(rung.low, 1.0, mixed(cell.right, line.start[0], cell.up, line.start[1]), -1.0), cell.right, cell.up
    )


def _bends(lines: Sequence[Line], angles: Sequence[float], plain: Sequence[bool]) -> tuple[Bend, ...]:
    """Sharp bends each on its own; over rolled parts one line for each gathered `FOLD` of turn."""
    out = []
    gathered = 0.0
    for k, angle in enumerate(angles, start=1):
        gathered += angle
        borders = plain[k - 1] or plain[k]
        if abs(gathered) > 1e-9 and (borders or abs(gathered) >= FOLD):
            out.append(Bend(lines[k], gathered))
            gathered = 0.0
    return tuple(out)


def runs_over_itself(development: Development) -> bool:
    """Whether a seam edge crosses the rest of the outline: the flat pattern would lie on top of itself."""
    others = [seg for edge in development.edges if edge.name in ("base", "top") for seg in edge.segs]
    for seam in development.seams:
        for line in (seam.first, seam.last):
            inner = Line(on_seg(line, 1e-6), on_seg(line, 1 - 1e-6))
            if any(isinstance(seg, Line) and _cross(inner, seg) for seg in others):
                return True
        if _cross(seam.first, seam.last):
            return True
    return False


def _cross(a: Line, b: Line) -> bool:
    return _side(a, b.start) * _side(a, b.end) < 0 and _side(b, a.start) * _side(b, a.end) < 0


def _side(line: Line, p: Point) -> float:
    (x0, y0), (x1, y1) = line.start, line.end
    return (x1 - x0) * (p[1] - y0) - (y1 - y0) * (p[0] - x0)
