"""The path track laid out: how much bar each straight, bend, eye, scroll and hoop takes, and the line it follows."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import cos, hypot, pi, sin, tan

from bickern.geometry.path import Arc, Kink, Leg, Spiral, SpiralKind, Straight, leg_length, spiral_for_length
from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.bar.allowances import BarRules, BendRule
from bickern.parts.bar.resolve import Laid, Stretch, Values, amount
from bickern.parts.bar.result import MetalRun
from bickern.parts.bar.rules import bend_length, square_corner_length
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    Corner,
    EyeLeg,
    HoopLeg,
    PathLeg,
    ScrollLeg,
    StraightLeg,
)
from bickern.parts.eye import eye_factors, eye_length

_ROUNDS = (Shape.ROUND, Shape.OVAL, Shape.TUBE)
Bent = BendLeg | EyeLeg | ScrollLeg | HoopLeg
"""Every leg but a straight."""
_FLAT = 1e-6
"""A bend within this [rad] of a half circle has no corner."""
_STEPS = 4
"""Rounds of `length -> middle of the leg -> thickness there -> length`; a taper of 1 in 10 settles in three."""


@dataclass(frozen=True, slots=True)
class Span:
    """One leg of the path on the finished bar: metal `start` to `end` [m], its line, thickness in its plane [m]."""

    leg: PathLeg
    start: float
    end: float
    line: tuple[Leg, ...]
    thick: float = 0.0
    inside_radius: float = 0.0

    @property
    def is_bend(self) -> bool:
        """Whether the metal is bent here."""
        return not isinstance(self.leg, StraightLeg)

    @property
    def strain(self) -> float:
        """Stretch of the outer fibre, thickness over twice the mean radius (0 for a straight)."""
        mean = 2 * self.inside_radius + self.thick
        return self.thick / mean if self.is_bend and mean > 0.0 else 0.0

    @property
    def stretch(self) -> Stretch:
        """The name and place alone."""
        return Stretch(self.leg.name, self.start, self.end)


@dataclass(frozen=True, slots=True)
class Made:
    """One leg made up: bar it takes [m], the line it follows, the inside radius used [m]."""

    length: float
    line: tuple[Leg, ...]
    inside_radius: float = 0.0


def box_at(runs: tuple[MetalRun, ...], at: float) -> tuple[Section, Section, float, float]:
    """Sections at both ends of the run that holds `at` [m], the share of the way between them, and its roll [rad]."""
    last = len(runs) - 1
    for i, run in enumerate(runs):
        if at < run.end or i == last:
            long = run.end - run.start
            share = (at - run.start) / long if long > 0.0 else 0.0
            return run.a, run.b, min(1.0, max(0.0, share)), run.roll
    raise ValueError("a bar has at least one run of metal")


def thick_at(runs: tuple[MetalRun, ...], at: float, turn: float) -> float:
    """Thickness [m] at `at` in the plane of a bend toward `turn` [rad]: width if left or right, thick if up or down."""
    a, b, share, roll = box_at(runs, at)
    wide = abs(cos(turn - roll)) * (a.width + share * (b.width - a.width))
    high = abs(sin(turn - roll)) * (a.thick + share * (b.thick - a.thick))
    if (a.shape if share < 0.5 else b.shape) in _ROUNDS:
        return hypot(wide, high)
    return wide + high


def lay_path(spec: BarSpec, laid: Laid, rules: BarRules, values: Values) -> tuple[Span, ...]:
    """Lay the path on the metal; no path is one straight of the metal's length."""
    if not spec.path:
        return (Span(StraightLeg(laid.length), 0.0, laid.length, (Straight(laid.length),)),)
    spans = _lay_once(spec, laid, rules, values, ())
    if any(isinstance(leg, StraightLeg) and leg.to_corners for leg in spec.path):
        for _ in range(_STEPS):  # the corners depend on the bends' thickness, and that on where the corners are
            spans = _lay_once(spec, laid, rules, values, spans)
    return spans


def _lay_once(spec: BarSpec, laid: Laid, rules: BarRules, values: Values, before: tuple[Span, ...]) -> tuple[Span, ...]:
    """Lay the path, with straights that are told to corners set back by the bends as they lay `before`."""
    spans: list[Span] = []
    at = 0.0
    for i, leg in enumerate(spec.path):
        if isinstance(leg, StraightLeg):
            length = amount(leg.length, values, ("path", i)) - _setbacks(leg, i, before)
            span = Span(leg, at, at + length, (Straight(length),))
        else:
            span = _lay_leg(leg, at, laid.runs, rules, values.get(("path", i)), i == 0)
        spans.append(span)
        at = span.end
    return tuple(spans)


def _setbacks(leg: StraightLeg, i: int, before: tuple[Span, ...]) -> float:
    """How much shorter a straight is than its side [m]: each bend's tangent length, to the corner told."""
    if not leg.to_corners or not before:
        return 0.0
    share = {"inside": 0.0, "centre": 0.5, "outside": 1.0}[leg.to_corners]
    beside = [before[k] for k in (i - 1, i + 1) if 0 <= k < len(before)]
    return sum(_tangent(s, share) for s in beside)


def _tangent(span: Span, share: float) -> float:
    leg = span.leg
    if not isinstance(leg, BendLeg) or leg.angle >= pi - _FLAT:
        return 0.0
    return (leg.inside_radius + share * span.thick) * tan(leg.angle / 2)


def path_length(spans: tuple[Span, ...]) -> float:
    """Bar the path takes [m]."""
    return spans[-1].end if spans else 0.0


def _lay_leg(
    leg: Bent, at: float, runs: tuple[MetalRun, ...], rules: BarRules, trial: float | None, first: bool
) -> Span:
    make = _maker(leg, rules, trial, first)
    thick = thick_at(runs, at, leg.turn)
    made = make(thick)
    for _ in range(_STEPS):
        there = _thick_in(leg, runs, at, made.length)
        if abs(there - thick) < 1e-13:
            break
        thick, made = there, make(there)
    long = made.length + _off_middle(leg, at, runs, rules) * thick
    return Span(leg, at, at + long, made.line, thick, made.inside_radius)


def _off_middle(leg: Bent, at: float, runs: tuple[MetalRun, ...], rules: BarRules) -> float:
    """What a half-round takes more than its middle height would, in thicknesses: its metal lies nearer its flat face.

    The flat is down, and the centroid of a half circle 4/(3 pi) of its height up (exact); scrolls and corners go by
    the middle.
    """
    if isinstance(leg, ScrollLeg) or (isinstance(leg, BendLeg) and (leg.corner or rules.bend is not BendRule.CENTRE)):
        return 0.0
    if box_at(runs, at)[0].shape is not Shape.HALF_ROUND:
        return 0.0
    angle = leg.angle if isinstance(leg, BendLeg) else 2 * eye_factors(rules.eye)[1]
    return angle * sin(leg.turn - box_at(runs, at)[3]) * (0.5 - 4 / (3 * pi))


def _thick_in(leg: Bent, runs: tuple[MetalRun, ...], at: float, length: float) -> float:
    """The thickness that decides a leg [m]: of a scroll at its middle, of a bend the thicker of its two third points.

    A bend has one inside radius: where a taper runs out in it, the fuller bar lies on the former.
    """
    if isinstance(leg, ScrollLeg):
        return thick_at(runs, at + length / 2, leg.turn)
    return max(thick_at(runs, at + length * third / 3, leg.turn) for third in (1, 2))


def _maker(leg: Bent, rules: BarRules, trial: float | None, first: bool) -> Callable[[float], Made]:
    if isinstance(leg, BendLeg):
        return lambda thick: _bend(leg, thick, rules)
    if isinstance(leg, EyeLeg):
        return lambda thick: _eye(leg, thick, first, rules.eye)
    if isinstance(leg, HoopLeg):
        return lambda thick: _hoop(leg, thick, rules.eye)
    return lambda thick: _scroll(leg, thick, trial)


def _bend(leg: BendLeg, thick: float, rules: BarRules) -> Made:
    if leg.corner is Corner.SQUARE:
        tail = (leg.inside_radius + thick / 2) * tan(leg.angle / 2)
        line: tuple[Leg, ...] = (Straight(tail), Kink(leg.angle, leg.turn), Straight(tail))
        return Made(square_corner_length(leg.angle, leg.inside_radius, thick), line, leg.inside_radius)
    length = bend_length(rules.bend, leg.angle, leg.inside_radius, thick)
    if leg.corner is Corner.UPSET:
        length += rules.upset_corner * thick
    return Made(length, (Arc(leg.inside_radius + thick / 2, leg.angle, leg.turn),), leg.inside_radius)


def _eye(leg: EyeLeg, thick: float, first: bool, rule: str) -> Made:
    """An eye on the bar's own line: a sharp bend at the mark, then the ring bent back over it.

    The ring passes through the mark, so its centre lies on the bar's line half the mean diameter beyond the mark. It is
    drawn as asked, whatever bar the shop's `rule` takes for it.
    """
    radius = (leg.inside_across + thick) / 2
    length = eye_length(rule, leg.inside_across, 2 * radius)
    ring = Arc(radius, 2 * pi, leg.turn)
    if not leg.centred:
        return Made(length, (ring,), leg.inside_across / 2)
    back = leg.turn + pi
    line = (ring, Kink(pi / 2, back)) if first else (Kink(pi / 2, leg.turn), Arc(radius, 2 * pi, back))
    return Made(length, line, leg.inside_across / 2)


def _hoop(leg: HoopLeg, thick: float, rule: str) -> Made:
    if leg.inside_across is not None:
        mean = leg.inside_across + thick
    elif leg.outside_across is not None:
        mean = leg.outside_across - thick
    else:
        mean = leg.mean_across or 0.0
    return Made(eye_length(rule, mean - thick, mean), (Arc(mean / 2, 2 * pi, leg.turn),), (mean - thick) / 2)


def _scroll(leg: ScrollLeg, thick: float, trial: float | None) -> Made:
    """A scroll: its radii are to the inside face, the line runs half the thickness (middle of the leg) outside them."""
    length = trial if trial is not None else None if isinstance(leg.length, Blank) else leg.length
    spiral = solve_scroll(leg, thick, length)
    if spiral is None:
        raise ScrollImpossibleError(leg)
    inner = min(spiral.start_radius, spiral.end_radius) - thick / 2
    return Made(leg_length(spiral), (spiral,), inner)


class ScrollImpossibleError(ValueError):
    """No spiral has the sizes asked for; turned into a finding where the bar is reckoned."""

    def __init__(self, leg: ScrollLeg) -> None:
        """The scroll that cannot be."""
        super().__init__(leg.name)
        self.leg = leg


def solve_scroll(leg: ScrollLeg, thick: float, length: float | None) -> Spiral | None:
    """The spiral the bar's line follows, from any three of turns, inside radius, outside radius and `length` [m]."""
    inner = None if leg.inside_radius is None else leg.inside_radius + thick / 2
    outer = None if leg.outside_radius is None else leg.outside_radius + thick / 2
    told = None not in (leg.turns, inner, outer)
    return spiral_for_length(
        SpiralKind.EQUIANGULAR if leg.equiangular else SpiralKind.ARCHIMEDEAN,
        start_radius=inner if leg.from_centre else outer,
        end_radius=outer if leg.from_centre else inner,
        angle=None if leg.turns is None else 2 * pi * leg.turns,
        length=None if told else length,
        roll=leg.turn,
    ).value


def with_eyes_by(rule: str, spec: BarSpec, laid: Laid, rules: BarRules, values: Values) -> tuple[Span, ...]:
    """The path laid as it is when its eyes and hoops take the bar that a `rule` says."""
    return lay_path(spec, laid, replace(rules, eye=rule), values)


def other_bend_length(spans: tuple[Span, ...], rules: BarRules) -> float:
    """Bar the path would take [m] if its plain bends were measured by the other bend rule."""
    other = BendRule.DIN_6935 if rules.bend is BendRule.CENTRE else BendRule.CENTRE
    total = path_length(spans)
    for span in spans:
        leg = span.leg
        if isinstance(leg, BendLeg) and leg.corner is Corner.NONE:
            total += bend_length(other, leg.angle, leg.inside_radius, span.thick)
            total -= bend_length(rules.bend, leg.angle, leg.inside_radius, span.thick)
    return total
