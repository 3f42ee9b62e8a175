"""How a strip of sheet is turned across its edge: straights and bends in order, as seen along the edge.

`forward` is measured along the sheet out over the edge, `up` toward the face of the pattern that looks at you. A bend
is positive toward you. The middle of the sheet is meant throughout; closed edges keep a hair's gap between layers.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from bickern.parts.sheet.spec import Edge, EdgeKind

HAIR = 1e-5
"""Gap [m] kept between layers that touch: a hundredth of a millimetre."""
_TIGHTEST = 0.55
"""Least middle radius, in thicknesses, of a bend that is closed hard."""


@dataclass(frozen=True, slots=True)
class Turn:
    """One straight or bend: `flat` length [m] on the pattern, `angle` [rad] (0: straight), `long` [m] as it is bent."""

    flat: float
    angle: float = 0.0
    long: float = -1.0

    @property
    def length(self) -> float:
        """Length [m] on the middle of the sheet once bent; that of the flat where nothing else is told."""
        return self.flat if self.long < 0.0 else self.long


Profile = tuple[Turn, ...]
"""Turns one after another."""


@dataclass(frozen=True, slots=True)
class Standing:
    """A place on a profile: `forward`, `up` [m], and the direction of travel as an angle [rad] from forward to up."""

    forward: float = 0.0
    up: float = 0.0
    heading: float = 0.0


def after(at: Standing, turn: Turn, share: float = 1.0) -> Standing:
    """Where one is a `share` (0..1) of the way through a turn."""
    way, long, angle = at.heading, share * turn.length, share * turn.angle
    if angle == 0.0:
        return Standing(at.forward + long * math.cos(way), at.up + long * math.sin(way), way)
    radius = long / angle
    end = way + angle
    forward = at.forward + radius * (math.sin(end) - math.sin(way))
    return Standing(forward, at.up - radius * (math.cos(end) - math.cos(way)), end)


def standing_at(profile: Profile, along: float) -> Standing:
    """The place `along` [m] of the flat from the start; behind the start straight back, past the end straight on."""
    at, left = Standing(min(along, 0.0)), max(along, 0.0)
    for turn in profile:
        if left < turn.flat:
            return after(at, turn, left / turn.flat)
        at, left = after(at, turn), left - turn.flat
    return after(at, Turn(left))


def breaks(profile: Profile, step: float) -> tuple[float, ...]:
    """Lengths [m] of the flat at which a turn begins or ends, or a bend has turned by another `step` [rad]."""
    found, start = [0.0], 0.0
    for turn in profile:
        count = max(1, math.ceil(abs(turn.angle) / step - 1e-9))
        found += [start + turn.flat * (i + 1) / count for i in range(count)]
        start += turn.flat
    return tuple(found)


def flat_length(profile: Profile) -> float:
    """Length [m] of the flat that the turns take."""
    return math.fsum(turn.flat for turn in profile)


def ended(profile: Sequence[Turn], total: float) -> Profile:
    """The turns cut off where the flat ends at `total` [m], or with a straight more up to there."""
    found: list[Turn] = []
    left = total
    for turn in profile:
        share = min(1.0, left / turn.flat) if turn.flat > 0.0 else 0.0
        if share > 0.0:
            found.append(Turn(turn.flat * share, turn.angle * share, turn.length * share))
        left -= turn.flat * share
    return (*found, Turn(left)) if left > 1e-12 else tuple(found)


def bent(radius: float, angle: float) -> Turn:
    """A bend of the middle `radius` [m] that neither stretches nor packs the sheet."""
    return Turn(radius * abs(angle), angle)


def finish_profile(edge: Edge, thick: float, extra: float) -> Profile:
    """A hem, double hem or wired edge that takes `extra` [m], turned away from you."""
    if edge.kind is EdgeKind.WIRED:
        return (_round_wire(edge.size, thick, extra),)
    if edge.kind is EdgeKind.DOUBLE_HEM:
        outer = bent(thick + HAIR, -math.pi)
        inner = bent((thick + HAIR) / 2, -math.pi)
        straight = max(0.0, extra / 2 - outer.flat)
        return ended((outer, Turn(straight), inner), extra)
    return ended((bent((thick + HAIR) / 2, -math.pi),), extra)


def _round_wire(wire: float, thick: float, extra: float) -> Turn:
    """The strip curled round its wire: as tight as the wire lets it, wider where its end would run into the sheet."""
    radius = (wire + thick) / 2
    while radius < extra and _runs_in(radius, extra / radius, thick):
        radius *= 1.02
    return bent(radius, -extra / radius)


def _runs_in(radius: float, turned: float, thick: float) -> bool:
    if turned <= 1.5 * math.pi:
        return False
    return turned >= 2 * math.pi or radius * (1 - math.cos(turned)) < thick + HAIR


def ramp(rise: float, run: float) -> Profile:
    """A joggle that lifts the sheet by `rise` over `run` [m] and leaves it level; it keeps its place on the flat."""
    angle = 2 * math.atan2(rise, run)
    long = run / (2 * math.sin(angle)) * angle
    return (Turn(run / 2, angle, long), Turn(run / 2, -angle, long))


def eye_profile(eye: float, thick: float, straight: float) -> Profile:
    """A lug rolled into an eye of inside diameter `eye` [m] that stands over the middle of its sheet.

    After `straight` [m] the lug is folded away from you by a right angle and rolled back over the edge, until its end
    meets the fold. The fold's radius is such that the eye has its told size and the lug its length, pi (eye + thick);
    where sheet is too thick for that, the fold is as tight as it can be and the eye takes what is left.
    """
    radius = (eye + thick) / 2
    low, high = _TIGHTEST * thick, max(_TIGHTEST * thick, 2 * thick)
    for _ in range(50):
        fold = (low + high) / 2
        taken = fold * math.pi / 2 - radius * _short_of(radius, fold, thick)
        low, high = (fold, high) if taken < 0.0 else (low, fold)
    left = 2 * math.pi * radius - low * math.pi / 2
    return (Turn(straight), bent(low, -math.pi / 2), Turn(left, left / _closed(radius, low, thick, left)))


def _closed(radius: float, fold: float, thick: float, left: float) -> float:
    """The middle radius at which `left` [m] of strip closes up to the fold."""
    for _ in range(20):
        radius = left / (2 * math.pi - _short_of(radius, fold, thick))
    return radius


def _short_of(radius: float, fold: float, thick: float) -> float:
    """Angle [rad] by which a circle standing on a fold stops short of its start, so that its end clears the fold."""
    outer, height = radius + thick / 2, fold + radius
    clear = fold + thick / 2 + HAIR
    # the end's outer corner lies on the circle of `outer` about a middle `height` over the fold's own middle
    cosine = (outer * outer + height * height - clear * clear) / (2 * outer * height)
    return math.acos(max(-1.0, min(1.0, cosine)))


def eye_middle(eye: float, thick: float, straight: float) -> tuple[float, float, float]:
    """Middle of an eye past its edge, forward and up [m], and its inside diameter as it is rolled [m]."""
    flat, fold, ring = eye_profile(eye, thick, straight)
    radius = ring.length / ring.angle
    start = after(after(Standing(), flat), fold)
    return start.forward + radius, start.up, 2 * radius - thick
