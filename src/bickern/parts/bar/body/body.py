"""The finished bar as a solid: its sections drawn along the bent line, holes cut, limbs and branches with it."""

from collections.abc import Iterator

import numpy as np

from bickern.geometry.path import Frame
from bickern.geometry.pose import Pose, of_frame
from bickern.geometry.solid.combine import gathered, without
from bickern.geometry.solid.solid import Fineness, Solid, moved
from bickern.geometry.solid.sweep import hollow, ringed, swept
from bickern.geometry.space import mixed
from bickern.parts.bar.body.opened import bulges, cutters, swollen
from bickern.parts.bar.body.outlined import around
from bickern.parts.bar.body.skin import Skin, skin_of
from bickern.parts.bar.body.stations import mitres, stations
from bickern.parts.bar.line import Line
from bickern.parts.bar.places import spot
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.traced import traced_line, traced_names

_MEETS = 1e-5
"""Metres within which the two ends of a closed bar are one."""


def bar_body(bar: BarResult, fineness: Fineness = Fineness.PREVIEW) -> Solid:
    """The bar in its own coordinates: its line starts at the origin along +x, its reference face looks up +z.

    Metal counts as the reckoning counts it: limbs and branches are gathered with the bar, not melted into it, so where
    a branch is welded on its end lies inside the bar; so does an eye's where it lies on its own shank. Split limbs lie
    side by side over the width that was split. Countersinks are not modelled. A tube's corner upset about no radius
    holds up to a twelfth too much (nobody makes one).
    """
    line = traced_line(bar)
    own = _own(bar, line, fineness)
    others = [moved(bar_body(child, fineness), pose) for child, pose in grown(bar, line)]
    return gathered(own, *others) if others else own


def _own(bar: BarResult, line: Line, fineness: Fineness) -> Solid:
    found = bulges(bar)
    places = stations(bar, line, fineness, swollen(found, fineness))
    skin = skin_of(bar, places, around(bar.runs, fineness), found, mitres(bar, line))
    solid = _closed(skin) if bar.spec.closed and _meets(skin) else _open(skin)
    return without(solid, *cutters(bar, line, fineness)) if bar.holes else solid


def _meets(skin: Skin) -> bool:
    return len(skin.outer) > 3 and bool(np.abs(skin.outer[0] - skin.outer[-1]).max() < _MEETS)


def _closed(skin: Skin) -> Solid:
    last = len(skin.outer) - 1
    if len(skin.inners) == 1 and skin.inners[0][:2] == (0, last):
        return ringed(skin.outer[:-1], skin.inners[0][2][:-1])
    return swept(skin.outer[:-1], closed=True)


def _open(skin: Skin) -> Solid:
    if not skin.inners:
        return swept(skin.outer)
    first, last = skin.inners[0][0] == 0, skin.inners[-1][1] == len(skin.outer) - 1
    return hollow(skin.outer, [loops for _, _, loops in skin.inners], first, last)


def grown(bar: BarResult, line: Line) -> Iterator[tuple[BarResult, Pose]]:
    """Limbs and branches with how they lie; the results hold the limbs first (see `reckon`)."""
    limbs = [c for c in bar.children if any(b.at is None and b.bar.name == c.spec.name for b in bar.spec.branches)]
    yield from zip(limbs, _side_by_side(line.end, limbs), strict=True)
    names = traced_names(bar)
    left = list(bar.children[len(limbs) :])
    for branch in bar.spec.branches:
        at = spot(branch.at, names) if branch.at is not None else None
        if at is not None and left and left[0].spec.name == branch.bar.name:
            yield left.pop(0), of_frame(line.frame(at))


def _side_by_side(end: Frame, limbs: list[BarResult]) -> list[Pose]:
    """Limbs over the width of the end that was split, the one that goes furthest left at the left."""
    order = sorted(range(len(limbs)), key=lambda i: -limbs[i].centre_of_mass[1])
    wide = [limb.runs[0].a.width for limb in limbs]
    at = sum(wide) / 2
    poses: dict[int, Pose] = {}
    for i in order:
        at -= wide[i] / 2
        poses[i] = of_frame(Frame(mixed(end.origin, 1.0, end.left, at), end.along, end.up))
        at -= wide[i] / 2
    return [poses[i] for i in range(len(limbs))]
