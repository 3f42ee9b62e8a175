"""A bar that is nothing but one curve: its lines inside, along the middle and outside."""

from dataclasses import dataclass, replace
from enum import StrEnum

from bickern.geometry.path import Arc, leg_length
from bickern.iron.section import Section, middle_height
from bickern.measure.finding import Finding, stop
from bickern.measure.units.words import Read
from bickern.parts.bar.allowances import BarRules, BendRule
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.rules import bend_length
from bickern.parts.bar.says import both
from bickern.parts.bar.tracks import BarSpec, BendLeg, Blank, Metal
from bickern.parts.bar.turns import DOWN


class To(StrEnum):
    """Where on the bar a radius is told to."""

    INSIDE = "inside"
    MIDDLE = "middle"
    OUTSIDE = "outside"


@dataclass(frozen=True, slots=True)
class Curve:
    """A curve reckoned [m]: bar along its middle and by DIN 6935, its two faces, and the stretch of the outer one."""

    middle: float
    by_din: float
    inside: float
    outside: float
    strain: float


def inside_radius(section: Section, radius: float, to: To) -> float:
    """Radius [m] of the inner face where `radius` [m] is told to another line; it may come out below nothing."""
    return radius - {To.INSIDE: 0.0, To.MIDDLE: middle_height(section), To.OUTSIDE: section.thick}[to]


def reckon_curve(section: Section, inside: float, angle: float, rules: BarRules, density: float) -> Read[Curve]:
    """A bar bent by `angle` [rad] round `inside` [m] over its thickness, a half-round with its flat inside.

    By DIN 6935 a sharp bend, with no radius inside, takes no length at all.
    """
    if inside < 0.0:
        return Read(None, (_no_room(section, inside),))
    leg = BendLeg(angle, inside, turn=DOWN)
    spec = BarSpec("curve", section, "", (Metal(Blank.REST),), (leg,))
    done = reckon_bar(spec, replace(rules, bend=BendRule.CENTRE), density)
    if done.value is None:
        return Read(None, done.findings)
    by_din = bend_length(BendRule.DIN_6935, angle, inside, section.thick)
    lines = [leg_length(Arc(radius, angle)) for radius in (inside, inside + section.thick)]
    curve = Curve(done.value.length, by_din, lines[0], lines[1], outer_strain(section, inside))
    return Read(curve, done.findings)


def outer_strain(section: Section, inside: float) -> float:
    """Stretch of the outer face [-] of a bar bent round `inside` [m]: its height over the middle by the mean radius."""
    middle = middle_height(section)
    return (section.thick - middle) / (inside + middle)


def _no_room(section: Section, inside: float) -> Finding:
    says = f"a bar {both(section.thick)} thick would be {both(-inside)} too thick for that radius: no inside is left"
    return stop("inside-smaller-than-bar", says, "make the radius bigger, or take thinner bar")
