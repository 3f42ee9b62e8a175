"""The flat of a pan, ready to be folded up: walls, hems, lugs on the walls, tabs behind the corners, holes.

Each wall is a patch that turns on the line where its fold begins. Side walls and tabs stand a hair clear of the walls
that they lie against.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import pi
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.polygon import Point
from bickern.geometry.polygon import points as points_of
from bickern.geometry.solid.solid import Fineness
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.body.edging import lug_profile, over
from bickern.parts.sheet.body.patches import Flat, Patch, turned
from bickern.parts.sheet.body.profile import HAIR, Profile, Turn, breaks, finish_profile
from bickern.parts.sheet.body.rulings import TURN, Lines, hole_points
from bickern.parts.sheet.chain import Spot, spot_at
from bickern.parts.sheet.pan import WALLS, fold_of, fold_run, pan_cut, spot_on, wall_edges, wall_finish, wall_tabs
from bickern.parts.sheet.rims import Tab, allowance
from bickern.parts.sheet.spec import Pan, SheetSpec
from bickern.parts.sheet.standing import wall_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_FAR = 1e-3
"""Zones reach so far [m] past the metal in them."""
Span = tuple[float, float]
"""Least and greatest place along a wall [m] from the middle of its side, anticlockwise."""


@dataclass(frozen=True, slots=True)
class _Wall:
    """A wall: `root`, the spot where its fold begins; how it is turned; how far its fold and it itself reach along.

    `top` [m]: its edge on the flat, from the root. `clear`: a wall between two others ends a hair short of them.
    """

    root: Spot
    profile: Profile
    fold: Span
    reach: Span
    top: float
    clear: Span

    @property
    def bend(self) -> float:
        """Length [m] of the fold on the flat."""
        return self.profile[0].flat


def pan_flat(pan: Pan, spec: SheetSpec, rules: SheetRules, fineness: Fineness) -> Flat:
    """The flat of a pan with all that is cut on it."""
    pattern, step = pan_cut(pan, spec, rules, spec.name), TURN[fineness]
    patches: list[Patch] = [Patch(lambda flat, near: np.column_stack((_centred(pan, flat), np.zeros(len(flat)))))]
    lines: list[tuple[Point, ...]] = []
    for name in (w for w in WALLS if w in pan.walls):
        wall, me = _wall(pan, name, spec, rules), len(patches)
        patches.append(_wall_patch(pan, wall))
        lines += _rows(wall.root, wall.fold, wall.reach, wall.bend, breaks(wall.profile, step))
        for patch, rows in (
            *_lugs(pan, name, wall, me, spec, rules, step),
            *_tabs(pan, name, wall, me, spec, rules, step),
        ):
            patches.append(patch)
            lines += rows
    holes = tuple(hole_points(h.centre, h.size, fineness) for h in pattern.holes)
    return Flat(points_of(pattern.outline), holes, tuple(lines), tuple(patches))


def _wall(pan: Pan, name: str, spec: SheetSpec, rules: SheetRules) -> _Wall:
    thick, fold = spec.thick, fold_of(pan, spec.thick, rules)
    known = wall_of(pan, name, thick, rules)
    top = pan.high - fold.deduction + fold.setback
    profile: Profile = (*known.profile, Turn(top - known.profile[0].flat))
    edge = wall_finish(spec, name)
    if edge is not None:
        profile = (*profile, *finish_profile(edge, thick, allowance(edge, rules, thick)))
    side = name in ("left", "right")
    middle = (pan.long if side else pan.wide) / 2
    bend = _about(fold_run(pan, fold, name), middle, name)
    reach = _about((spot_on(pan, thick, name, 0.0), spot_on(pan, thick, name, 1.0)), middle, name)
    return _Wall(known.root, profile, bend, reach, top, (reach[0] + HAIR * side, reach[1] - HAIR * side))


def _about(span: Span, middle: float, name: str) -> Span:
    """Places from the left or the front told from the middle, anticlockwise."""
    low, high = span[0] - middle, span[1] - middle
    return (low, high) if name in ("front", "right") else (-high, -low)


def _wall_patch(pan: Pan, wall: _Wall) -> Patch:
    (f0, f1), (w0, w1), b, far = wall.fold, wall.reach, wall.bend, sum(t.flat for t in wall.profile) + _FAR
    ring = ((f0, 0.0), (f1, 0.0), (f1, b), (w1, b), (w1, far), (w0, far), (w0, b), (f0, b))
    zone = tuple(wall.root.off(*p) for p in ring)
    return Patch(_raised(pan, wall), (zone,), 0, lambda p: over(wall.root, p)[1] < 1e-7)


def _centred(pan: Pan, flat: "Array") -> "Array":
    out: Array = flat - np.array((pan.wide / 2, pan.long / 2))
    return out


def _raised(pan: Pan, wall: _Wall) -> "Callable[[Array, Array], Array]":
    def place(flat: "Array", near: "Array") -> "Array":
        along, out = over(wall.root, flat)
        return _up(pan, wall, along, out, np.zeros(len(flat)))

    return place


def _up(pan: Pan, wall: _Wall, along: "Array", out: "Array", lift: "Array") -> "Array":
    """Places in space: so far along a wall, out over it on the flat, and lifted to the inside [m]."""
    forward, up, heading = turned(wall.profile, out)
    forward, up = forward - lift * np.sin(heading), up + lift * np.cos(heading)
    kept = np.clip(along, *wall.clear)[:, None]
    flat = np.array(wall.root.point) + kept * np.array(wall.root.along) + forward[:, None] * np.array(wall.root.outward)
    return np.column_stack((_centred(pan, flat), up))


def _rows(root: Spot, fold: Span, reach: Span, bend: float, at: tuple[float, ...]) -> list[tuple[Point, ...]]:
    spans = ((fold if b < bend - 1e-9 else reach, b) for b in at)
    return [(root.off(low - 1e-6, b), root.off(high + 1e-6, b)) for (low, high), b in spans]


def _lugs(
    pan: Pan, name: str, wall: _Wall, parent: int, spec: SheetSpec, rules: SheetRules, step: float
) -> Iterator[tuple[Patch, Lines]]:
    """The lugs on a wall's top edge: the wall goes on into them."""
    edges = dict(wall_edges(pan, spec.thick, rules))
    for tab in (t for on, _, tabs in wall_tabs(pan, spec, rules) if on == name for t in tabs):
        middle = float(over(wall.root, np.array([spot_at((edges[name],), tab.at).point]))[0][0])
        yield _lug(pan, wall, parent, tab, middle, (spec.thick, rules.eye_straight), step)


def _lug(
    pan: Pan, wall: _Wall, parent: int, tab: Tab, middle: float, sheet: tuple[float, float], step: float
) -> tuple[Patch, Lines]:
    onward = replace(wall, profile=(*wall.profile[:2], *lug_profile(tab, *sheet, 0.0)))
    low, high, end = middle - tab.width / 2, middle + tab.width / 2, wall.top + tab.length
    zone = tuple(wall.root.off(*p) for p in ((low, wall.top), (high, wall.top), (high, end), (low, end)))
    rows = _rows(
        wall.root, (low, high), (low, high), 0.0, tuple(b for b in breaks(onward.profile, step) if b > wall.top)
    )
    return Patch(_raised(pan, onward), (zone,), parent, lambda p: over(wall.root, p)[1] < wall.top + 1e-7), tuple(rows)


def _tabs(
    pan: Pan, name: str, wall: _Wall, parent: int, spec: SheetSpec, rules: SheetRules, step: float
) -> Iterator[tuple[Patch, Lines]]:
    """The tabs at the ends of a side wall, folded in behind the walls in front and at the back."""
    if pan.corner_tabs > 0.0 and name in ("left", "right"):
        fold, thick = fold_of(pan, spec.thick, rules), spec.thick
        low = max(fold.length - fold.setback, 0.0) + thick + fold.setback
        high = pan.high - fold.deduction - thick + fold.setback
        turn = Turn(fold.length, pi / 2, pi / 2 * (fold.radius + thick / 2 - HAIR))
        length = pan.corner_tabs + fold.setback - fold.deduction
        for face, onward in (("front", -1.0), ("back", 1.0)):
            if face in pan.walls:
                way = onward if name == "right" else -onward
                at = pan.long / 2 - thick - fold.setback
                yield _tab(
                    pan, replace(wall, clear=(-np.inf, np.inf)), parent, way, at, (low, high), length, turn, step
                )


def _tab(
    pan: Pan, wall: _Wall, parent: int, way: float, at: float, up: Span, length: float, turn: Turn, step: float
) -> tuple[Patch, Lines]:
    def place(flat: "Array", near: "Array") -> "Array":
        along, out = over(wall.root, flat)
        forward, lift, _ = turned((turn,), way * along - at)
        return _up(pan, wall, way * (at + forward), out, lift)

    (low, high), end = up, at + length
    zone = tuple(wall.root.off(way * a, b) for a, b in ((at, low), (end, low), (end, high), (at, high)))
    rows = tuple(
        (wall.root.off(way * (at + c), low - 1e-6), wall.root.off(way * (at + c), high + 1e-6))
        for c in breaks((turn,), step)
    )
    return Patch(place, (zone,), parent, lambda p: way * over(wall.root, p)[0] - at < 1e-7), rows
