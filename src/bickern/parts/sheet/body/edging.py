"""Patches along a free edge: hems and wired edges turned over, lugs rolled into eyes or left straight."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.polygon import ArcSeg, Line, Point
from bickern.parts.sheet.body.patches import Patch, turned
from bickern.parts.sheet.body.profile import Profile, Turn, breaks, ended, eye_profile
from bickern.parts.sheet.body.rulings import Lines, Rulings
from bickern.parts.sheet.chain import Chain, Spot, backward, shifted, spot_at
from bickern.parts.sheet.rims import Tab
from bickern.parts.sheet.standing import Stand

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Flags = NDArray[np.bool_]

Lifted = Callable[["Array", "Array", "Array", "Array"], "Array"]
"""Places (n, 3) of flat points (n, 2) moved by (n, 2) and lifted by (n,) [m], each with a place inside a face by it."""
_TOUCH = 1e-7
_ROW_STRAY = 5e-5


@dataclass(frozen=True, slots=True, eq=False)
class Edging:
    """Patches and the lines to cut them along."""

    patches: tuple[Patch, ...] = ()
    lines: Lines = ()


def hemmed(side: Chain, whole: Chain, profile: Profile, body: Lifted, rulings: Rulings, step: float) -> Edging:
    """A strip outside one side of an edge (outside on its right), turned over; `whole` is its outline."""

    def place(flat: "Array", near: "Array") -> "Array":
        foot, by, out = beyond(side, flat)
        forward, up, _ = turned(profile, by)
        inside, _, way = beyond(side, near)
        return body(foot, out * forward[:, None], up, inside - 1e-6 * way)

    rows = tuple(_row(shifted(side, b), rulings) for b in breaks(profile, step)[1:-1])
    return Edging((Patch(place, (_ring(side, whole, rulings),), 0, _on(_ends(side, rulings))),), rows)


def _ends(side: Chain, rulings: Rulings) -> tuple[Point, ...]:
    """The side in chords, both its ends with it."""
    return (*rulings.chords(side), spot_at(backward(side), 0.0).point)


def _on(line: tuple[Point, ...]) -> "Callable[[Array], Flags]":
    import shapely

    root = shapely.LineString(line)

    def touches(flat: "Array") -> "Flags":
        found: Flags = shapely.dwithin(shapely.points(flat), root, _TOUCH)
        return found

    return touches


def _row(chain: Chain, rulings: Rulings) -> tuple[Point, ...]:
    """A row as a line that runs a little over its ends; points that it hardly needs are left out."""
    import shapely

    first, last = spot_at(chain[:1], 0.0), spot_at(backward(chain), 0.0)
    row = (first.off(-1e-6, 0.0), *_ends(chain, rulings), last.off(-1e-6, 0.0))
    return tuple((x, y) for x, y in shapely.simplify(shapely.LineString(row), _ROW_STRAY).coords)


def _ring(side: Chain, whole: Chain, rulings: Rulings) -> tuple[Point, ...]:
    return (*rulings.chords(whole), *rulings.chords(backward(side)))


def beyond(chain: Chain, flat: "Array") -> "tuple[Array, Array, Array]":
    """For flat points: the foot (n, 2) on an edge, how far (n,) outside it they lie [m], and the way out (n, 2)."""
    arcs = [seg for seg in chain if isinstance(seg, ArcSeg)]
    if arcs:
        centre, radius = np.array(arcs[0].centre), arcs[0].radius
        away = flat - centre
        far = np.linalg.norm(away, axis=1, keepdims=True)
        way = away / np.where(far > 0.0, far, 1.0)
        out = 1.0 if arcs[0].sweep > 0.0 else -1.0
        return centre + radius * way, out * (far[:, 0] - radius), out * way
    return _beyond_lines(tuple(seg for seg in chain if isinstance(seg, Line)), flat)


def _beyond_lines(chain: tuple[Line, ...], flat: "Array") -> "tuple[Array, Array, Array]":
    """By the nearest straight; at a corner of a round, the ways out of its two sides run into one another evenly."""
    import shapely

    start = np.array([seg.start for seg in chain])
    whole = np.array([seg.end for seg in chain]) - start
    long = np.linalg.norm(whole, axis=1)
    along = whole / long[:, None]
    line = shapely.LineString([*start, chain[-1].end])
    passed = np.concatenate(([0.0], np.cumsum(long)))
    at = shapely.line_locate_point(line, shapely.points(flat))
    k = np.clip(np.searchsorted(passed, at, side="right") - 1, 0, len(chain) - 1)
    outward = np.column_stack((along[:, 1], -along[:, 0]))
    run = np.einsum("ij,ij->i", flat - start[k], along[k])
    # past its ends the edge goes straight on
    run = np.clip(run, np.where(k == 0, -np.inf, 0.0), np.where(k == len(chain) - 1, np.inf, long[k]))
    foot = start[k] + run[:, None] * along[k]
    gap = flat - foot
    by = np.einsum("ij,ij->i", gap, outward[k])
    size = np.linalg.norm(gap, axis=1)
    way = np.where((size > 1e-9)[:, None], gap / np.maximum(size, 1e-30)[:, None] * np.sign(by)[:, None], outward[k])
    return foot, np.where(size > 1e-9, size * np.sign(by), 0.0), way


def lugged(
    chain: Chain,
    tab: Tab,
    corners: tuple[Point, ...],
    stand: Stand,
    sheet: tuple[float, float],
    body: Lifted,
    step: float,
) -> Edging:
    """A lug on an edge: it leaves the surface along its tangent, and is rolled into its eye about a straight axis.

    `sheet`: its thickness, and what the shop leaves flat between an edge and an eye [m].
    """
    spot = spot_at(chain, tab.at)
    at, height = over(spot, np.array((corners[0], corners[-1])))
    highest = float(height.max())
    profile = lug_profile(tab, *sheet, max(0.0, highest))
    turn = min(tab.length / 3, max(2 * sheet[0], 4 * float(np.abs(height).max())))

    def past_root(along: "Array", out_by: "Array") -> "Array":
        share = (along - at[0]) / (at[1] - at[0])
        past: Array = out_by - height[0] - share * (height[1] - height[0])
        return past

    def place(flat: "Array", near: "Array") -> "Array":
        along, out_by = over(spot, flat)
        forward, up, _ = turned(profile, out_by)
        straight_on = _at(stand, along, forward, up)
        share = np.clip(past_root(along, out_by) / turn, 0.0, 1.0)
        share = (share * share * (3 - 2 * share))[:, None]
        out = np.array(spot.outward)
        foot = np.array(spot.point) + along[:, None] * np.array(spot.along)
        round_on = body(foot, out * forward[:, None], up, np.repeat([spot.off(0.0, -1e-6)], len(flat), axis=0))
        mixed: Array = round_on * (1 - share) + straight_on * share
        return mixed

    rows = [b for b in (*breaks(profile, step), highest + turn / 2, highest + turn) if highest < b < tab.length - 1e-9]
    half = tab.width / 2 + 1e-6
    lines = tuple((spot.off(-half, b), spot.off(half, b)) for b in rows)
    patch = Patch(place, (corners,), 0, lambda p: past_root(*over(spot, p)) < _TOUCH)
    return Edging((patch,), lines)


def lug_profile(tab: Tab, thick: float, straight: float, begins: float) -> Profile:
    """How a lug is turned: `begins` [m] over the tangent of its edge, where the edge is hollow."""
    if tab.eye <= 0.0:
        return (Turn(tab.length),)
    return ended((Turn(begins), *eye_profile(tab.eye, thick, straight)), tab.length)


def over(spot: Spot, flat: "Array") -> "tuple[Array, Array]":
    """How far (n,) flat points lie along a spot's edge from it, and outside of the edge [m]."""
    off = flat - np.array(spot.point)
    return off @ np.array(spot.along), off @ np.array(spot.outward)


def _at(stand: Stand, along: "Array", over: "Array", toward: "Array") -> "Array":
    places: Array = (
        np.array(stand.point)
        + along[:, None] * np.array(stand.along)
        + over[:, None] * np.array(stand.over)
        + toward[:, None] * np.array(stand.toward)
    )
    return places
