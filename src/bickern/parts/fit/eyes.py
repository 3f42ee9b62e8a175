"""Whether one ring can go through two eyes that stand apart: a circle has only one way through two places."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from math import acos, atan2, hypot, inf, pi, sin

from bickern.geometry.space import distance, dot, minus, mixed, norm, times, unit
from bickern.measure.finding import Finding, stop
from bickern.measure.units.say import say_both
from bickern.parts.bar.result import BarResult, HoleCheck
from bickern.parts.fit.checked import Bench, Checked
from bickern.parts.fit.loops import Loop
from bickern.parts.fit.openings import Opening, holes_meant, one_each, openings_at
from bickern.parts.fit.result import FitRow
from bickern.parts.fit.words import moving, said_margin, spare
from bickern.parts.joint.spec import JointSpec
from bickern.parts.set.pieces import Pieces
from bickern.parts.set.places import number_of, one_of, split_place
from bickern.parts.set.spots.spots import spot_on
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.rims import shares_round
from bickern.parts.sheet.spec import Cone, Cylinder, Lug

NEAR = 1e-9
FACING = 0.1
"""Radians: the ways through two openings that differ less from the line between them look at one another."""
ALIKE = 0.1
"""How unlike (sine) the ways through two holes may lie to one circle before nothing is said of them."""


@dataclass(frozen=True, slots=True)
class Pair:
    """Two openings alike: how far apart [m] their middles are, least and most, and `angle` [rad] between the line
    that joins them and the way through each (a right angle: holes side by side that look the same way)."""

    least: float
    most: float
    angle: float
    opening: Opening


def lean(wire: float, hole: float, plate: float) -> float:
    """How far [rad] a straight wire can lean in a hole through metal `plate` thick, all [m]: d = h cos b - T sin b."""
    if wire >= hole:
        return 0.0
    return acos(wire / hypot(hole, plate)) - atan2(plate, hole)


def suiting(pair: Pair, leans: float) -> tuple[float, float]:
    """Mean diameters [m], least and most, of the rings that go through both: D = distance / sin(angle at the chord).

    A circle meets its chord of length D at both ends under asin(D / mean diameter) (exact); each end may lean by
    `leans` [rad] from the way through its opening.
    """
    steep, flat = min(pair.angle + leans, pi / 2), pair.angle - leans
    return pair.least / sin(steep) if steep > NEAR else inf, pair.most / sin(flat) if flat > NEAR else inf


def two_eyes(joint: JointSpec, loop: Loop, pieces: Pieces, bench: Bench) -> Checked:
    """A ring put through several openings of one piece: the pair that suits it least; nothing where it has only one."""
    if one_each(joint, pieces):
        return Checked()
    found = [_pair(joint, loop, pair, bench) for pair in pairs_of(joint.through, pieces)]
    return min(found, key=lambda checked: checked.rows[0].margin, default=Checked())


def _pair(joint: JointSpec, loop: Loop, pair: Pair, bench: Bench) -> Checked:
    opening, mean = pair.opening, loop.across_mean
    play = max(0.0, opening.across - loop.wire.thick)
    room = Pair(max(0.0, pair.least - play), pair.most + play, pair.angle, opening)
    low, high = suiting(room, lean(loop.wire.thick, opening.across, opening.plate))
    margin = min(mean - low, high - mean)
    needed = low if mean - low <= high - mean else high
    told = f"the ring is {said_margin(-margin, bench.style)} too big" if mean > high else spare(margin, bench.style)
    says = f"they stand {say_both((pair.least + pair.most) / 2, bench.style)} apart: {told}"
    what = f"{loop.name} through {_two(opening.place)}"
    row = FitRow(joint, what, "goes through both", moving(margin), needed, mean, margin, says)
    if margin > 0:
        return Checked((row,))
    return Checked((row,), (_finding(loop, pair, low, bench).at(joint.where),))


def _two(place: str) -> str:
    return place if " and " in place else f"two of {place}"


def _finding(loop: Loop, pair: Pair, low: float, bench: Bench) -> Finding:
    between, style = (pair.least + pair.most) / 2, bench.style
    apart, inside = say_both(between, style), said_margin(loop.across, style)
    says = (
        f"{_two(pair.opening.place)} stand {apart} apart, and their holes do not lie along one circle of "
        f"{loop.name}, {inside} inside: it goes through one, not both"
    )
    if pair.angle < FACING:
        wants = f", or take a ring of {say_both(low - loop.wire.thick, style)} inside or more" if low < inf else ""
        return stop("ring-through-two", says, f"Put a pin through both and hang the ring on that{wants}.")
    wants = say_both(max(0.0, between / sin(pair.angle) - loop.wire.thick), style)
    tries = f"Put a ring in each (`1` and `2`) and hang those in one more, or take a ring about {wants} inside."
    return stop("ring-through-two", says, tries)


def pairs_of(through: Sequence[str], pieces: Pieces) -> tuple[Pair, ...]:
    """Every two openings that a ring is put through on one piece, where they stand simply: on a round rim, on a bar."""
    by_piece: dict[str, list[str]] = {}
    for place in through:
        by_piece.setdefault(place.partition(".")[0], []).append(place)
    return tuple(pair for places in by_piece.values() for pair in _on_piece(places, pieces))


def _on_piece(places: Sequence[str], pieces: Pieces) -> tuple[Pair, ...]:
    piece = split_place(places[0], pieces)[0]
    spots = [split_place(place, pieces)[1] for place in places]
    if isinstance(piece, SheetResult):
        return _on_rim(piece, spots, places, pieces)
    return _on_bar(piece, spots, places, pieces) if isinstance(piece, BarResult) else ()


def _on_rim(sheet: SheetResult, spots: Sequence[str], places: Sequence[str], pieces: Pieces) -> tuple[Pair, ...]:
    """Lugs round one rim: their eyes lie along it, so that the way through is along the rim at each."""
    lugs = {lug for lug in sheet.spec.lugs for spot in spots if lug.eye and (spot == "lugs" or one_of(spot, lug.name))}
    across = {lug: _rim(sheet, lug) for lug in lugs}
    if len(lugs) != 1 or (size := across[next(iter(lugs))]) is None:
        return ()
    lug = next(iter(lugs))
    shares = shares_round(lug.number, lug.first)
    numbers = [number_of(spot) for spot in spots]
    meant = shares if None in numbers else tuple(shares[n - 1] for n in numbers if n and n <= lug.number)
    opening = openings_at(places[0], pieces)[0]
    out = (lug.eye + sheet.spec.thick) / 2
    return tuple(_round_rim(a, b, size, out, opening) for a, b in combinations(sorted(set(meant)), 2))


def _round_rim(one: float, two: float, across: float, out: float, opening: Opening) -> Pair:
    """Two lugs at shares of the way round; each eye may be rolled outward or inward by `out` [m] of its middle."""
    share = min(two - one, 1 - (two - one))
    half = pi * share
    return Pair(max(0.0, across - 2 * out) * sin(half), (across + 2 * out) * sin(half), min(half, pi / 2), opening)


def _rim(sheet: SheetResult, lug: Lug) -> float | None:
    """Diameter [m] of the round rim that a lug stands on."""
    surface = sheet.spec.surface
    if isinstance(surface, Cone):
        return surface.top if lug.on == "top" else surface.base
    return surface.across if isinstance(surface, Cylinder) and not surface.cut else None


def _on_bar(bar: BarResult, spots: Sequence[str], places: Sequence[str], pieces: Pieces) -> tuple[Pair, ...]:
    """Holes through the same face with no bend between them: side by side, looking the same way."""
    checks = {c.at: c for spot in spots for c in holes_meant(bar, spot)}
    if len(checks) < 2:
        return ()
    told = " and ".join(dict.fromkeys(places))
    opening = replace(openings_at(places[0], pieces)[0], place=told)
    found = []
    for a, b in combinations(sorted(checks), 2):
        if any(s.start < b and s.end > a for s in bar.bends):
            found.append(_round_bend(bar, checks[a], checks[b], opening))
        elif checks[a].hole.face is checks[b].hole.face:
            found.append(Pair(b - a, b - a, pi / 2, opening))
    return tuple(pair for pair in found if pair is not None)


def _round_bend(bar: BarResult, one: HoleCheck, other: HoleCheck, opening: Opening) -> Pair | None:
    """Two holes with a bend between them, as in a clevis; None where no circle could come near to both."""
    spots = dict(zip(bar.holes, spot_on(bar, "holes"), strict=True))
    first, second = spots[one].pose, spots[other].pose
    apart = distance(first.origin, second.origin)
    if apart < NEAR:
        return None
    chord = unit(minus(second.origin, first.origin))
    ways = [times(z, 1.0 if dot(z, chord) >= 0 else -1.0) for z in (first.z, second.z)]
    aside = [mixed(way, 1.0, chord, -dot(way, chord)) for way in ways]
    if min(norm(mixed(aside[0], 1.0, aside[1], sign)) for sign in (1.0, -1.0)) > ALIKE:
        return None
    return Pair(apart, apart, sum(acos(min(1.0, dot(way, chord))) for way in ways) / 2, opening)
