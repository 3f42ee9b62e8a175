"""The skin of a bent bar as loops of points: its outlines, set in place at every station.

Straight chords between stations hold a little less than the bends and twists that they stand for. The loops are drawn
that much bigger, by factors that follow from geometry alone and know nothing of what the bar should weigh:
a bend of angle d between two stations keeps the share sin(d)/d (each bit of section moves on a chord between two planes
through the axis; exact), a twist of angle t the share 1 - (1 - cos t)/3 (area of (1-u) P + u P turned, over u; exact).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import tan
from typing import TYPE_CHECKING

import numpy as np

from bickern.parts.bar.body.opened import Bulge, parted
from bickern.parts.bar.body.outlined import areas, holes_of, loops_of, middles
from bickern.parts.bar.body.stations import Mitre, Place
from bickern.parts.bar.result import BarResult, MetalRun

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_AXIS = 0.98
"""No point of a section comes nearer to the axis of its bend than the rest of this: the inside must not fold over."""
_NEAR = 1e-9
_LEAST = 1e-18


@dataclass(frozen=True, slots=True, eq=False)
class Skin:
    """Loops (k, n, 3) [m] of the outside, and of each stretch of hollow with the first and last station it lies at."""

    outer: "Array"
    inners: "tuple[tuple[int, int, Array], ...]"


@dataclass(frozen=True, slots=True, eq=False)
class _Rows:
    """The stations as arrays: (k,) and (k, 3); `spin` is how far the section lies turned in its frame [rad]."""

    at: "Array"
    line: "Array"
    origin: "Array"
    along: "Array"
    up: "Array"
    left: "Array"
    twist: "Array"
    rest: "Array"
    curve: "Array"
    roll: "Array"
    stretch: "Array"
    forged: "NDArray[np.bool_]"
    hair: "Array"


def _rows(places: Sequence[Place]) -> _Rows:
    scalars = np.array(
        [(p.at, p.line, p.twist, p.rest, p.curve, p.roll, p.stretch, p.forged, p.hair) for p in places]
    ).T
    frames = np.array([(*p.frame.origin, *p.frame.along, *p.frame.up) for p in places])
    along, up = frames[:, 3:6], frames[:, 6:]
    at, line, twist, rest, curve, roll, stretch, forged, hair = scalars
    return _Rows(
        at, line, frames[:, :3], along, up, np.cross(up, along), twist, rest, curve, roll, stretch, forged > 0.5, hair
    )


def skin_of(
    bar: BarResult,
    places: Sequence[Place],
    angles: tuple[float, ...],
    bulges: tuple[Bulge, ...],
    mitres: tuple[Mitre, ...],
) -> Skin:
    """The loops of a bar through its stations, with points at polar `angles` [rad] of each section's box."""
    rows = _rows(places)
    runs = np.array([p.run for p in places])
    outer, holes, offsets = _sections(bar, runs, rows, angles)
    spin = rows.rest + np.array([r.roll for r in bar.runs])[runs]
    drawn = np.sqrt(_factors(rows, _turned(outer, spin)) * _by_mitres(rows, outer, spin, mitres))[:, None, None]
    set_in = [_set(rows, parted(x * drawn, rows.at, bulges), spin, offsets, mitres) for x in (outer, holes)]
    doubled = [i for i in range(1, len(places)) if places[i - 1].kink and not places[i].kink]
    kept = np.delete(np.arange(len(places)), doubled)
    hollow = np.abs(holes[kept]).max(axis=(1, 2)) > _NEAR
    inner = set_in[1][kept]
    stretches = tuple((low, high, inner[low : high + 1]) for low, high in _stretches(hollow))
    return Skin(set_in[0][kept], stretches)


def _stretches(hollow: "NDArray[np.bool_]") -> list[tuple[int, int]]:
    """First and last station of each hollow; one that runs out to a point takes in the station of the point."""
    found: list[tuple[int, int]] = []
    for i in np.flatnonzero(hollow):
        low, high = max(0, int(i) - 1), min(len(hollow) - 1, int(i) + 1)
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], high)
        else:
            found.append((low, high))
    return found


def _sections(
    bar: BarResult, runs: "NDArray[np.int_]", rows: _Rows, angles: tuple[float, ...]
) -> "tuple[Array, Array, Array]":
    """Outlines, holes (k, n, 2) and offsets off the line (k, 2) [m] in the run's own faces."""
    outer = np.empty((len(runs), len(angles), 2))
    holes, offsets = np.zeros_like(outer), np.zeros((len(runs), 2))
    for i in sorted({int(r) for r in runs}):
        run, rows_here = bar.runs[i], runs == i
        long = run.end - run.start
        shares = np.clip((rows.at[rows_here] - run.start) / long, 0.0, 1.0) if long > 0.0 else rows.at[rows_here] * 0.0
        outer[rows_here] = loops_of(run, shares, angles, i == 0, _neck(bar.runs, i))
        if run.a.wall or run.b.wall:
            holes[rows_here] = holes_of(run, shares, angles)
        offsets[rows_here] = np.outer(1 - shares, run.offset_a) + np.outer(shares, run.offset_b)
    return outer, holes, offsets


def _neck(runs: tuple[MetalRun, ...], i: int) -> float:
    """How wide the bar is beside an outlined end; nothing where there is no bar beside it."""
    beside = i + 1 if i == 0 else i - 1
    if not 0 <= beside < len(runs):
        return 0.0
    return (runs[beside].a if i == 0 else runs[beside].b).width


def _turned(loops: "Array", spin: "Array") -> "Array":
    """Sections (k, n, 2) turned by `spin` (k,) [rad], left toward up."""
    c, s = np.cos(spin)[:, None], np.sin(spin)[:, None]
    x, y = loops[:, :, 0], loops[:, :, 1]
    return np.stack((c * x - s * y, s * x + c * y), axis=-1)


def _factors(rows: _Rows, loops: "Array") -> "Array":
    """How much larger than its section (by area) each loop (k,) is drawn, so that chords hold what arcs would.

    Between two stations: line over chord, over the cosine of half the turn; what a twist loses; and how much metal lies
    on a length of line. A bend of half-round carries its metal off the line: Pappus's rule says how much that takes.
    Each station has its share in what lies on both sides: of a stretch with areas A, B, (2 A + B)/6 and (A + 2 B)/6.
    """
    line, metal = np.diff(rows.line), np.diff(rows.at)
    chord = np.linalg.norm(np.diff(rows.origin, axis=0), axis=1)
    turn = np.clip(np.einsum("ij,ij->i", rows.along[1:], rows.along[:-1]), -1.0, 1.0)
    real = (line > _NEAR) & (chord > _NEAR) & ~rows.forged[1:]
    kept = np.where(real, chord, 1.0) * np.sqrt((1 + turn) / 2) * (1 - (1 - np.cos(np.diff(rows.twist))) / 3)
    balance = middles(loops).centre
    toward = np.stack((np.cos(rows.roll), np.sin(rows.roll)), axis=-1)
    off = np.einsum("ij,ij->i", (balance[1:] + balance[:-1]) / 2, toward[1:])
    wanted = metal / (1 - np.clip(rows.curve[1:] * off, -0.9, 0.9))
    step = np.where(real, wanted / np.where(kept > _NEAR, kept, 1.0), 1.0)
    long, area = np.where(line > _NEAR, line, 0.0), np.maximum(areas(loops), _LEAST)
    behind = np.concatenate((long * (2 * area[:-1] + area[1:]), [0.0]))
    before = np.concatenate(([0.0], long * (area[:-1] + 2 * area[1:])))
    steps = np.concatenate((step, [1.0])), np.concatenate(([1.0], step))
    both = behind + before
    drawn: Array = (behind * steps[0] + before * steps[1]) / np.where(both > 0.0, both, 1.0)
    drawn[both <= 0.0] = 1.0
    return drawn


def _lean(rows: _Rows, mitre: Mitre) -> "tuple[Array, Array]":
    """For every station: how much of a mitre's lean it has (k,), and the side it lies on (-1 before, 1 after)."""
    past = rows.line - mitre.line
    side = np.where(past > _NEAR, 1.0, -1.0)
    # of the two stations in the place of the kink the second belongs to what follows
    at_kink = np.flatnonzero(np.abs(past) <= _NEAR)
    side[at_kink[1:]] = 1.0
    reach = np.where(side > 0.0, mitre.after, mitre.before)
    return np.clip(1 - np.abs(past) / reach, 0.0, 1.0), side


def _by_mitres(rows: _Rows, loops: "Array", spin: "Array", mitres: tuple[Mitre, ...]) -> "Array":
    """What a mitre on a bent leg adds to it or takes from it, spread over the stations that lean (k,).

    The section is brought round the bend to the mitre, and there lies on the leg's straight prolongation. Where the
    leg bends away from the kink by 1/R that adds tan(a/2)/R times (tan^2(a/2)/2 of the section's second moment there
    about the axis of the kink, and 3/4 of what that is more than the mean over the lean); it is taken off again. To
    first order in the section over R.
    """
    factor = np.ones(len(rows.at))
    if not mitres:
        return factor
    second, area = middles(_turned(loops, spin)).second, np.maximum(areas(loops), _LEAST)
    for mitre in mitres:
        lean, side = _lean(rows, mitre)
        c, s = np.cos(mitre.roll), np.sin(mitre.roll)
        about = c * c * second[:, 0] + s * s * second[:, 1] + 2 * c * s * second[:, 2]
        for way, reach, curve in ((-1.0, mitre.before, mitre.curves[0]), (1.0, mitre.after, mitre.curves[1])):
            here = (side == way) & (lean > 0.0)
            if curve and here.any():
                added = _added(about[here], lean[here], tan(mitre.angle / 2)) * curve
                factor[here] += 6 * lean[here] * (1 - lean[here]) * added / area[here] / reach
    return factor


def _added(about: "Array", lean: "Array", slope: float) -> float:
    """What the mitre adds for each unit of curve [m4], from second moments where the section leans (see above)."""
    at_kink = float(about[np.argmax(lean)])
    return slope * (slope**2 / 2 * at_kink + 3 / 4 * (at_kink - float(about.mean())))


def _set(rows: _Rows, loops: "Array", spin: "Array", offsets: "Array", mitres: tuple[Mitre, ...]) -> "Array":
    """Sections set in their places (k, n, 3) [m]."""
    points = _turned(loops, spin) + _turned(offsets[:, None, :], rows.rest)
    toward = np.stack((np.cos(rows.roll), np.sin(rows.roll)), axis=-1)
    q = np.einsum("kni,ki->kn", points, toward)
    points = points + ((rows.stretch - 1)[:, None] * q)[:, :, None] * toward[:, None, :]
    over = np.maximum(q - _AXIS / np.maximum(rows.curve, _NEAR)[:, None], 0.0)
    points = points - over[:, :, None] * toward[:, None, :]
    start = rows.origin + rows.hair[:, None] * rows.along
    placed: Array = start[:, None] + points[:, :, :1] * rows.left[:, None] + points[:, :, 1:] * rows.up[:, None]
    for mitre in mitres:
        placed += _leaning(rows, points, mitre)
    return placed


def _leaning(rows: _Rows, points: "Array", mitre: Mitre) -> "Array":
    """How far each point (k, n, 3) [m] goes along the line to lie in a mitre; along an arc it goes round its axis."""
    lean, side = _lean(rows, mitre)
    q = points[:, :, 0] * np.cos(mitre.roll) + points[:, :, 1] * np.sin(mitre.roll)
    reach = np.where(side > 0.0, mitre.after, mitre.before)[:, None]
    shift = np.clip(q * tan(mitre.angle / 2), -0.95 * reach, 0.95 * reach) * (lean * side)[:, None]
    at_kink = lean > 1 - 1e-6
    curve = np.where(at_kink, 0.0, np.where(np.abs(rows.curve) > _NEAR, rows.curve, 0.0))[:, None]
    inward = points[:, :, 0] * np.cos(rows.roll)[:, None] + points[:, :, 1] * np.sin(rows.roll)[:, None]
    radius = np.where(curve > 0.0, 1 / np.where(curve > 0.0, curve, 1.0) - inward, 0.0)
    along = np.where(curve > 0.0, radius * np.sin(curve * shift), shift)
    aside = radius * (1 - np.cos(curve * shift))
    toward = np.cos(rows.roll)[:, None] * rows.left + np.sin(rows.roll)[:, None] * rows.up
    moved: Array = along[:, :, None] * rows.along[:, None] + aside[:, :, None] * toward[:, None]
    return moved
