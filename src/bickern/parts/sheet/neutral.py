"""Sizes told inside or outside, moved to the middle of the sheet: half a thickness square to the wall.

Edges are cut square to the sheet, so a rim moves outward by half a thickness times the cosine of the wall's slope from
upright, and up or down as much at both rims: slant and height stay as told.
"""

from dataclasses import replace
from math import hypot

from bickern.parts.sheet.spec import Bowl, Cone, Cylinder, Pan, Pyramid, Rim, Sized, Surface, Transition


def outward(sized: Sized, thick: float) -> float:
    """How far [m] the middle of the sheet lies outside the surface that the sizes are told of."""
    return {Sized.INSIDE: thick / 2, Sized.OUTSIDE: -thick / 2, Sized.MEAN: 0.0}[sized]


def on_middle(surface: Surface, thick: float, sized: Sized) -> Surface:
    """The same piece with mean sizes; a pan keeps its told sizes as outside sizes (its folds are reckoned so)."""
    out = outward(sized, thick)
    if isinstance(surface, Cone):
        return moved_cone(surface, out)
    if isinstance(surface, Cylinder):
        return replace(surface, across=surface.across + 2 * out)
    if isinstance(surface, Pyramid):
        return _pyramid(surface, out)
    if isinstance(surface, Transition):
        return _transition(surface, out)
    if isinstance(surface, Bowl):
        return moved_bowl(surface, out)
    return outside_pan(surface, thick, out + thick / 2) if isinstance(surface, Pan) else surface


def moved_cone(cone: Cone, out: float) -> Cone:
    """A cone `out` [m] outside another, measured square to its wall."""
    run = (cone.base - cone.top) / 2
    slant = hypot(run, cone.height)
    wider = 2 * out * cone.height / slant
    if cone.top > 0.0:
        return replace(cone, base=cone.base + wider, top=cone.top + wider)
    # A point stays a point: the rim is cut square, the apex moves along the axis.
    return replace(cone, base=cone.base + wider, height=cone.height * (cone.base + wider) / cone.base)


def moved_bowl(bowl: Bowl, out: float) -> Bowl:
    """The same cap on a ball larger by `out` [m]; its rim is cut square to the wall."""
    radius = ball_radius(bowl)
    factor = (radius + out) / radius
    return replace(bowl, rim=bowl.rim * factor, depth=bowl.depth * factor)


def ball_radius(bowl: Bowl) -> float:
    """Radius [m] of the ball that the bowl is a cap of."""
    half = bowl.rim / 2
    return (half * half + bowl.depth * bowl.depth) / (2 * bowl.depth)


def outside_pan(pan: Pan, thick: float, out: float) -> Pan:
    """Outside sizes of a pan told at `out` [m] inside its outside (0: outside, thickness: inside)."""
    along = sum(wall in pan.walls for wall in ("front", "back"))
    across = sum(wall in pan.walls for wall in ("left", "right"))
    return replace(pan, long=pan.long + along * out, wide=pan.wide + across * out, high=pan.high + out)


def _pyramid(p: Pyramid, out: float) -> Pyramid:
    wider = _wider(p.base, p.top, p.height, out)
    pointed = p.top <= 0.0 and not p.top_long
    height = p.height * (p.base + wider) / p.base if pointed else p.height
    base_long, top_long = p.base_long, p.top_long
    if base_long is not None:
        longer = _wider(base_long, top_long or 0.0, p.height, out)
        base_long = base_long + longer
        top_long = None if top_long is None else _grown(top_long, longer)
    return replace(
        p, base=p.base + wider, top=_grown(p.top, wider), height=height, base_long=base_long, top_long=top_long
    )


def _transition(t: Transition, out: float) -> Transition:
    rise = t.high.centre[2] - t.low.centre[2]
    across = _wider(t.low.across, t.high.across, rise, out)
    long = _wider(t.low.long, t.high.long, rise, out)
    return Transition(_rim(t.low, across, long), _rim(t.high, across, long))


def _rim(rim: Rim, across: float, long: float) -> Rim:
    return replace(rim, across=rim.across + across, long=rim.long + long)


def _wider(low: float, high: float, rise: float, out: float) -> float:
    """What is added [m] to a size across, for walls that lean from `low` to `high` over `rise`."""
    return 2 * out * rise / hypot(rise, (low - high) / 2)


def _grown(size: float, more: float) -> float:
    return size + more if size > 0.0 else size
