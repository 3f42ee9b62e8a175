"""Twists placed on the bar: their zone, the stretch of the outer fibre, and what they must keep clear of."""

from math import hypot, pi, sqrt

from bickern.iron.section import Section, area, radius_of_circle_round
from bickern.measure.finding import Finding, note, stop, warn
from bickern.measure.units.words import Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.length import Span, box_at
from bickern.parts.bar.places import Map, no_such_name, spot
from bickern.parts.bar.resolve import same_section
from bickern.parts.bar.result import HoleCheck, MetalRun, TwistCheck
from bickern.parts.bar.says import both, called
from bickern.parts.bar.tracks import Anchor, Twist

NOTED, LOUD = 0.30, 0.60
"""Outer-fibre stretch that is worth a word, and that tears poor bar. A lesson twists 1/2 sq at 49 % in good iron."""
_TOUCH = 1e-6


def corner_strain(turns: float, length: float, across: float) -> float:
    """Stretch of the outermost fibre: sqrt(1 + (pi N w / L)^2) - 1; `across` = w, the circle round the section [m]."""
    return sqrt(1 + (pi * turns * across / length) ** 2) - 1


def corner_line(turns: float, length: float, across: float) -> float:
    """Length [m] of the outermost line of a twist, a helix: sqrt(L^2 + (pi N w)^2) (exact)."""
    return hypot(length, pi * turns * across)


def lead(turns: float, length: float) -> float:
    """Length [m] in which the bar turns once round."""
    return length / turns


def place_twists(
    twists: tuple[Twist, ...], names: Map, runs: tuple[MetalRun, ...]
) -> tuple[tuple[TwistCheck, ...], tuple[Finding, ...]]:
    """Every twist with its zone and strain; those that cannot be placed are findings."""
    checks: list[TwistCheck] = []
    findings: list[Finding] = []
    for twist in twists:
        zone = _zone(twist, names)
        if isinstance(zone, Finding):
            findings.append(zone)
            continue
        across = max((2 * radius_of_circle_round(s) for s in _sections(runs, *zone)), default=0.0)
        checks.append(TwistCheck(twist, *zone, corner_strain(twist.turns, zone[1] - zone[0], across)))
    return tuple(checks), tuple(findings)


def _sections(runs: tuple[MetalRun, ...], start: float, end: float) -> list[Section]:
    return [s for r in runs if r.start < end - _TOUCH and r.end > start + _TOUCH for s in (r.a, r.b)]


def _zone(twist: Twist, names: Map) -> tuple[float, float] | Finding:
    who = called(twist.name, "the twist")
    at = spot(twist.at, names)
    if at is None:
        return no_such_name(twist.at.name, names, twist.where)
    over = twist.over
    if over is None:
        stretch = names.stretch(twist.at.name)
        if stretch is None:
            return stop("twist-needs-length", f"{who} does not say over what length", "give `over`", twist.where)
        over, at = stretch.end - stretch.start, spot(twist.at, names) or 0.0
    if over <= 0.0:
        return stop("twist-needs-length", f"{who} has no length to be twisted over", "give `over`", twist.where)
    start = at - over * _share(twist.at.anchor)
    if start < -_TOUCH or start + over > names.length + _TOUCH:
        return stop(
            "twist-off-the-bar",
            f"{who} runs from {both(start)} to {both(start + over)}, the bar is {both(names.length)} long",
            "move it or make it shorter",
            twist.where,
        )
    return start, start + over


def _share(anchor: Anchor) -> float:
    return {Anchor.MIDDLE_OF: 0.5, Anchor.END_OF: 1.0, Anchor.END: 1.0}.get(anchor, 0.0)


def twist_findings(
    checks: tuple[TwistCheck, ...], runs: tuple[MetalRun, ...], spans: tuple[Span, ...], holes: tuple[HoleCheck, ...]
) -> list[Finding]:
    """What a smith must know of each twist: strain, and tapers, bends, holes and other twists in its zone."""
    found: list[Finding] = []
    for i, check in enumerate(checks):
        found += _strain(check)
        found += _in_the_way(check, runs, spans, holes)
        found += [_clash(check, "another twist") for other in checks[:i] if _meets(check, other.start, other.end)]
        section = box_at(runs, (check.start + check.end) / 2)[0]
        if section.shape is Shape.ROUND:
            found.append(note("twist-does-not-show", "a twist in round bar does not show", "", check.twist.where))
    return found


def _strain(check: TwistCheck) -> list[Finding]:
    if check.corner_strain < NOTED:
        return []
    loud = check.corner_strain >= LOUD
    says = f"{called(check.twist.name, 'the twist')} stretches the corners by {check.corner_strain * 100:.0f} %"
    more = ": poor bar tears along the edges at this" if loud else ""
    cure = "fewer turns or a longer zone; an even orange-yellow heat, sound bar, and ease the corners first"
    said = warn if loud else note
    return [said("twist-too-tight" if loud else "twist-tight", says + more, cure, check.twist.where)]


def _meets(check: TwistCheck, start: float, end: float) -> bool:
    return start < check.end - _TOUCH and end > check.start + _TOUCH


def _in_the_way(
    check: TwistCheck, runs: tuple[MetalRun, ...], spans: tuple[Span, ...], holes: tuple[HoleCheck, ...]
) -> list[Finding]:
    found = []
    inside = [r for r in runs if _meets(check, r.start, r.end)]
    if any(not same_section(r.a, r.b) or r.outline for r in inside):
        found.append(_clash(check, "a taper, which twists tighter at its thin end"))
    elif any(not same_section(inside[0].a, r.a) for r in inside[1:]):
        found.append(_clash(check, "a shoulder"))
    if any(s.is_bend and _meets(check, s.start, s.end) for s in spans):
        found.append(_clash(check, "a bend"))
    if any(_meets(check, h.at - h.hole.size / 2, h.at + h.hole.size / 2) for h in holes):
        found.append(_clash(check, "a hole, which closes and tears"))
    return found


def _clash(check: TwistCheck, what: str) -> Finding:
    name = "twist-over-" + next(k for k in ("taper", "shoulder", "bend", "hole", "twist") if k in what)
    says = f"{called(check.twist.name, 'the twist')} runs over {what}"
    return warn(name, says, "move the twist or shorten it", check.twist.where)


def shortening(checks: tuple[TwistCheck, ...], rules: BarRules) -> tuple[float, ...]:
    """Length [m] of drawn bar that each twist takes up beyond its finished zone."""
    share = rules.twist_shortening
    return tuple((c.end - c.start) * share / (1 - share) for c in checks)


def shortening_volume(checks: tuple[TwistCheck, ...], runs: tuple[MetalRun, ...], rules: BarRules) -> float:
    """Metal [m^3] that the twists take up beyond their finished zones."""
    if not rules.twist_shortening:
        return 0.0
    lost = shortening(checks, rules)
    middles = (box_at(runs, (c.start + c.end) / 2) for c in checks)
    return sum(x * (area(m[0]) + area(m[1])) / 2 for x, m in zip(lost, middles, strict=True))
