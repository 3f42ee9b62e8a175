"""Holes placed on the bar: where, the wall left beside them, the slit or slug, and what they must keep clear of."""

from dataclasses import replace
from itertools import pairwise
from math import pi

from bickern.measure.finding import Finding, stop, warn
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.length import box_at
from bickern.parts.bar.places import Map, no_such_name, spot
from bickern.parts.bar.result import HoleCheck, MetalRun
from bickern.parts.bar.rules import SLUG_SHARE, WALL_SHARE, slit_length
from bickern.parts.bar.says import both, called
from bickern.parts.bar.tracks import BarSpec, Face, Hole, HoleBy

_TOUCH = 1e-6
DRIFT_LIMIT = 2.0
"""A hole drifted to more than so many widths of the bar is warned of (chosen here)."""
_SIDES = (Face.LEFT, Face.RIGHT)


def place_holes(
    spec: BarSpec, names: Map, runs: tuple[MetalRun, ...], rules: BarRules
) -> tuple[tuple[HoleCheck, ...], tuple[Finding, ...]]:
    """Every single hole in its place (rows of holes taken one by one), and findings for those that have none."""
    checks: list[HoleCheck] = []
    findings: list[Finding] = []
    for hole in spec.holes:
        spots = _spots(hole, names, spec.closed)
        if isinstance(spots, Finding):
            findings.append(spots)
        else:
            checks += [_check(hole, at, runs, rules) for at in spots]
    if not (spec.closed and spec.welded):
        checks = [replace(c, wall=min(c.wall, _to_end(c, runs[-1].end))) for c in checks]
    return tuple(sorted(checks, key=lambda c: c.at)), tuple(findings)


def _spots(hole: Hole, names: Map, closed: bool) -> list[float] | Finding:
    at = spot(hole.at, names)
    if at is None:
        return no_such_name(hole.at.name, names, hole.where)
    if hole.number == 1:
        return [at]
    if hole.spacing is not None:
        return [at + i * hole.spacing for i in range(hole.number)]
    stretch = names.stretch(hole.at.name)
    if closed and stretch is None:
        space, start = names.length / hole.number, 0.0
    elif stretch is None:
        space, start = (names.length - at) / hole.number, at
    else:
        space, start = (stretch.end - stretch.start) / hole.number, stretch.start
    return [start + (hole.first + i) * space for i in range(hole.number)]


def _check(hole: Hole, at: float, runs: tuple[MetalRun, ...], rules: BarRules) -> HoleCheck:
    wide, deep = across_and_through(hole, at, runs)
    wall = (wide - hole.size) / 2
    slit = slit_length(rules.slit, hole.size, hole.long) if hole.by is HoleBy.SLIT else None
    if hole.by is HoleBy.SLIT:
        wall = wide / 2  # the slit takes nothing: each half of the bar goes round the drift whole
    opening = opening_area(hole)
    slug = {HoleBy.DRILL: opening * deep, HoleBy.PUNCH: opening * deep * SLUG_SHARE, HoleBy.SLIT: 0.0}[hole.by]
    return HoleCheck(hole, at, wall, slit, slug)


def _to_end(check: HoleCheck, length: float) -> float:
    """Metal [m] between a hole, or its slit, and the nearer end of the bar; none where it runs out of it."""
    half = (check.slit if check.slit is not None else _along(check.hole)) / 2
    return max(0.0, min(check.at, length - check.at) - half)


def opening_area(hole: Hole) -> float:
    """Area [m^2] of the opening: round, or a slot with square ends where `long` is told."""
    return pi * hole.size**2 / 4 if hole.long is None else hole.long * hole.size


def slot_faults(size: float, long: float | None) -> tuple[Finding, ...]:
    """A slot is told by its width first: one that is shorter than wide is told the wrong way round."""
    if long is None or long >= size:
        return ()
    says = f"the opening is {both(long)} long and {both(size)} across: longer across than along"
    return (stop("slot-wrong-way", says, "change the two sizes round"),)


def across_and_through(hole: Hole, at: float, runs: tuple[MetalRun, ...]) -> tuple[float, float]:
    """Size of the bar [m] across the hole and through it, seen on the face it is made from."""
    a, b, share, _ = box_at(runs, at)
    wide = a.width + share * (b.width - a.width)
    thick = a.thick + share * (b.thick - a.thick)
    return (thick, wide) if hole.face in _SIDES else (wide, thick)


def hole_findings(checks: tuple[HoleCheck, ...], runs: tuple[MetalRun, ...], spec: BarSpec) -> list[Finding]:
    """Holes off the bar, on its joint, as wide as the bar, with thin walls, or into each other."""
    found: list[Finding] = []
    length = runs[-1].end
    for check in checks:
        hole = check.hole
        half = _along(hole) / 2
        on_joint = min(abs(check.at), abs(length - check.at)) < half - _TOUCH
        if spec.closed and on_joint:
            found.append(_on_joint(check, spec.welded))
        elif check.at - half < -_TOUCH or check.at + half > length + _TOUCH:
            found.append(_off(check, length))
        else:
            found += _walls(check, across_and_through(hole, check.at, runs)[0], length)
            found += _slit_end(check, across_and_through(hole, check.at, runs)[0], length) if not spec.closed else []
    return found + _overlaps(checks)


def _on_joint(check: HoleCheck, welded: bool) -> Finding:
    says = f"{called(check.hole.name, 'a hole')} falls on the joint, where the two ends meet"
    cure = "write `first: half a space from the joint`, or move it"
    if welded:
        return warn("hole-on-the-joint", says, f"{cure}; else make it once the weld is dressed", check.hole.where)
    return stop("hole-on-the-joint", f"{says} but are not welded", cure, check.hole.where)


def _slit_end(check: HoleCheck, wide: float, length: float) -> list[Finding]:
    """A slit is longer than the hole it drifts out to, and must not run out of the bar's end."""
    if check.slit is None:
        return []
    room = min(check.at, length - check.at) - check.slit / 2
    says = f"the slit for {called(check.hole.name, 'a hole')} is {both(check.slit)} long"
    if room < -_TOUCH:
        says += f" and runs {both(-room)} out of the end of the bar"
        return [stop("slit-off-the-bar", says, "move it in from the end, or make the hole smaller", check.hole.where)]
    if room < WALL_SHARE * wide - _TOUCH:
        says += f" and stops {both(room)} from the end of the bar: it may burst there"
        return [
            warn(
                "slit-near-end", says, "move it in from the end, or leave the end long and cut it off", check.hole.where
            )
        ]
    return []


def _along(hole: Hole) -> float:
    return hole.long if hole.long is not None else hole.size


def _off(check: HoleCheck, length: float) -> Finding:
    who = called(check.hole.name, "a hole")
    says = f"{who} at {both(check.at)} runs off the bar, which is {both(length)} long"
    return stop("hole-off-the-bar", says, "move it in from the end", check.hole.where)


def _walls(check: HoleCheck, wide: float, length: float) -> list[Finding]:
    hole = check.hole
    if hole.by is HoleBy.SLIT:
        if hole.size > DRIFT_LIMIT * wide:
            says = f"a hole of {both(hole.size)} drifted in a bar {both(wide)} wide leaves walls that tear"
            return [warn("thin-wall", says, "upset the bar first, or use a wider one", hole.where)]
        return []
    verb = "drilled" if hole.by is HoleBy.DRILL else "punched"
    if hole.size >= wide:
        says = f"a hole of {both(hole.size)} cannot be {verb} in a bar {both(wide)} wide: no wall is left"
        return [stop("hole-wider-than-bar", says, "slit and drift it, upset the bar, or use a wider one", hole.where)]
    beside = (wide - hole.size) / 2
    if beside < WALL_SHARE * wide - _TOUCH:
        says = f"a hole of {both(hole.size)} {verb} leaves walls of {both(beside)}, under a quarter of the bar"
        return [warn("thin-wall", says, "slit and drift it, or use a wider bar", hole.where)]
    end = min(check.at, length - check.at) - _along(hole) / 2
    if end < WALL_SHARE * wide - _TOUCH:
        says = f"a hole of {both(hole.size)} stands {both(max(0.0, end))} from the end of the bar"
        return [warn("hole-near-end", says, "leave at least a quarter of the bar's width", hole.where)]
    return []


def _overlaps(checks: tuple[HoleCheck, ...]) -> list[Finding]:
    found = []
    for one, two in pairwise(checks):
        room = two.at - one.at - (_along(one.hole) + _along(two.hole)) / 2
        if room < -_TOUCH and (one.hole.face in _SIDES) == (two.hole.face in _SIDES):
            says = f"holes at {both(one.at)} and {both(two.at)} run into each other"
            found.append(stop("holes-overlap", says, "move them apart", two.hole.where))
    return found


def swapped(hole: Hole) -> Hole:
    """The hole of a mirrored bar: left and right change places."""
    other = {Face.LEFT: Face.RIGHT, Face.RIGHT: Face.LEFT}
    return replace(hole, face=other.get(hole.face, hole.face))
