"""Skins laid flat: which development serves which surface, and into how many parts it is cut."""

from bickern.geometry.develop.cutting import split
from bickern.geometry.develop.flat_sided import pyramid, rectangular_frustum
from bickern.geometry.develop.oblique import oblique_cone
from bickern.geometry.develop.pattern import Development
from bickern.geometry.develop.rims import Rim as Ring
from bickern.geometry.develop.rims import oval_rim, rectangle_rim
from bickern.geometry.develop.transition import transition
from bickern.geometry.develop.turned import FAR_APEX, cylinder
from bickern.measure.finding import Finding, note
from bickern.measure.units.words import Read
from bickern.parts.sheet.figures import cone_sizes_of
from bickern.parts.sheet.say import told
from bickern.parts.sheet.spec import Cone, Cylinder, Pyramid, Rim, RimShape, Surface, Transition

STRAY = 5e-5
"""How far the straights of a transition's rims may leave the true rims [m]: finer than a scribed line."""


def laid(middle: Surface) -> Read[Development]:
    """The whole skin flat, from mean sizes; findings in the smith's words."""
    if isinstance(middle, Cone):
        made = oblique_cone(middle.base / 2, middle.top / 2, middle.height, middle.offset)
        return Read(made.value, (*(f for f in made.findings if f.name != "far-apex"), *_far(middle)))
    if isinstance(middle, Cylinder):
        return cylinder(middle.across / 2, middle.height, middle.cut)
    if isinstance(middle, Pyramid):
        return _pyramid(middle)
    assert isinstance(middle, Transition)
    return transition(_ring(middle.low), _ring(middle.high))


def parted(whole: Development, parts: int) -> Read[tuple[Development, ...]]:
    """The skin in so many parts, cut along its generators."""
    return split(whole, parts)


def _far(cone: Cone) -> tuple[Finding, ...]:
    if cone.offset != (0.0, 0.0):
        return ()
    slant, large, _, _ = cone_sizes_of(cone)
    if large <= FAR_APEX * cone.base:
        return ()
    says = f"Nearly a cylinder: the arcs are struck from {told(large)} away."
    way = f"Lay the arcs out by chord and rise (see the figures), {told(slant)} apart, or print the pattern full size."
    return (note("far-apex", says, way),)


def _pyramid(p: Pyramid) -> Read[Development]:
    if p.base_long is None:
        return pyramid(p.sides, p.base, p.top, p.height, p.offset)
    top_long = p.top_long if p.top_long is not None else p.top
    return rectangular_frustum((p.base, p.base_long), (p.top, top_long), p.height, p.offset)


def _ring(rim: Rim) -> Ring:
    if rim.shape is RimShape.RECTANGLE:
        return rectangle_rim(rim.across, rim.long, rim.centre, rim.tilt)
    return oval_rim(rim.across, rim.long, rim.centre, rim.tilt, STRAY)
