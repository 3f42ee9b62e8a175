"""Scrolls that cannot be: turned inside out by the sizes given, or with coils that would lie in one another."""

from math import pi

from bickern.geometry.curve import radius_and_rate, scroll_length
from bickern.geometry.path import Spiral, scroll_of
from bickern.measure.finding import Finding, stop
from bickern.parts.bar.length import Span, thick_at
from bickern.parts.bar.result import MetalRun
from bickern.parts.bar.says import both, leg_words
from bickern.parts.bar.tracks import ScrollLeg

_TOUCH = 1e-6
_TURN = 2 * pi
_LOOKED_AT = (0.0, 0.25, 0.5, 0.75, 1.0)
"""Places, as shares of the way out, where coils are held against the next one out."""


def scroll_findings(span: Span, runs: tuple[MetalRun, ...]) -> list[Finding]:
    """Faults of one leg, if it is a scroll."""
    leg, line = span.leg, span.line[0] if span.line else None
    if not isinstance(leg, ScrollLeg) or not isinstance(line, Spiral):
        return []
    inner, outer = _radii(leg, line)
    if outer <= inner + _TOUCH:
        return [_inside_out(leg, inner, outer, span)]
    return _coils_meet(span, leg, line, runs)


def _radii(leg: ScrollLeg, line: Spiral) -> tuple[float, float]:
    """Radii [m] of the line at the end that is told as the inner one and at the outer."""
    ends = (line.start_radius, line.end_radius)
    return ends if leg.from_centre else (ends[1], ends[0])


def _inside_out(leg: ScrollLeg, inner: float, outer: float, span: Span) -> Finding:
    half = span.thick / 2
    says = (
        f"{leg_words(leg)} would open from {both(inner - half)} to {both(outer - half)} inside: it does not open, "
        f"for {both(span.end - span.start)} of bar does not go with the turns and the radius told"
    )
    turns = leg.turns or 0.0
    cure = "change its length or turns"
    if leg.inside_radius is not None and turns:
        cure = f"{turns:g} turns round that inside take more than {both(_TURN * turns * inner)}; or fewer turns"
    elif leg.outside_radius is not None and turns:
        cure = f"{turns:g} turns within that outside take less than {both(_TURN * turns * outer)}; or more turns"
    return stop("scroll-inside-out", says, cure, leg.where)


def _coils_meet(span: Span, leg: ScrollLeg, line: Spiral, runs: tuple[MetalRun, ...]) -> list[Finding]:
    """Each coil must clear the one a full turn further out by half of both their thicknesses."""
    if line.angle <= _TURN:
        return []
    worst, room = 0.0, 0.0
    for share in _LOOKED_AT:
        phi = share * (line.angle - _TURN)
        (r0, t0), (r1, t1) = (_coil(span, leg, line, runs, x) for x in (phi, phi + _TURN))
        short = (t0 + t1) / 2 - (r1 - r0)
        worst, room = (short, r1 - r0) if short > worst else (worst, room)
    if worst <= _TOUCH:
        return []
    says = f"the coils of {leg_words(leg)} lie {both(room)} apart, middle to middle: {both(worst)} of one in the other"
    return [stop("scroll-coils-meet", says, "fewer turns, a bigger outside radius, or thinner bar", leg.where)]


def _coil(span: Span, leg: ScrollLeg, line: Spiral, runs: tuple[MetalRun, ...], phi: float) -> tuple[float, float]:
    """Radius of the line and thickness of the bar [m] at an angle [rad] from the inner end."""
    turned = phi if leg.from_centre else line.angle - phi
    radius, _ = radius_and_rate(scroll_of(line), turned)
    along = scroll_length(scroll_of(line), turned)
    return radius, thick_at(runs, span.start + along, leg.turn)
