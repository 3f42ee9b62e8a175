"""Strips for hems and wires, notched where a skin folds: a strip turned in may not reach past the fold of its own side.

Two sides that meet in a corner fold on lines that are not one line, so a strip that ran round the corner could not be
turned at all. Each side has a strip of its own, cut back at 45 degrees, or at less where the fold leans more.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import acos, atan2, hypot, pi, radians, tan

from bickern.geometry.polygon import Line, Point, Seg, seg_end, seg_length, seg_start
from bickern.parts.sheet.chain import Chain, chain_length, part_of, shifted, spot_at

SHARP = radians(20)
"""A corner of an edge that turns by more on the flat is notched; rounds laid out in straights turn by less."""
_CUT = radians(45)
_NEAR = 1e-7
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Strip:
    """Metal `extra` [m] wide outside one side of an edge; its ends are cut at angles [rad] from it (pi/2: square)."""

    side: Chain
    extra: float
    first: float
    last: float

    def at(self, share: float) -> Chain:
        """A line along the strip, `share` of its width out; empty where the cuts leave nothing."""
        out = self.extra * share
        line = shifted(self.side, out)
        return part_of(line, out * _back(self.first), chain_length(line) - out * _back(self.last))

    @property
    def room(self) -> float:
        """What the cuts leave [m] of the outer edge; less than nothing where they cross."""
        cut = self.extra * (_back(self.first) + _back(self.last))
        return chain_length(shifted(self.side, self.extra)) - cut

    @property
    def whole(self) -> Chain:
        """From one end of the side to the other, round the strip."""
        out = self.at(1.0)
        start, end = seg_start(self.side[0]), seg_end(self.side[-1])
        if not out:
            return self.side
        return (Line(start, seg_start(out[0])), *out, Line(seg_end(out[-1]), end))


@dataclass(frozen=True, slots=True)
class Folds:
    """How a skin is folded: the lines, and the places on its edges where it is folded and not rolled.

    `ends` [rad]: the angle inside the net between an edge and the seam, at most a right angle.
    """

    lines: tuple[Line, ...] = ()
    sharp: tuple[Point, ...] = ()
    ends: float = pi / 2


def notched(chain: Chain, extra: float, folds: Folds = Folds()) -> tuple[Strip, ...]:
    """The strips outside an edge (on its right), one for each of its sides."""
    parted = sides(chain, folds.sharp)
    cuts = [_cuts(a, b, folds.lines) for a, b in pairwise(parted)]
    firsts = [folds.ends, *(after for _, after in cuts)]
    lasts = [*(before for before, _ in cuts), folds.ends]
    return tuple(Strip(s, extra, a, b) for s, a, b in zip(parted, firsts, lasts, strict=True))


def joined(strips: tuple[Strip, ...]) -> tuple[Chain, Chain]:
    """The strips' outlines end to end; apart from it the cuts from outside to corner along which two strips meet.

    There the outline would run in and straight back out on itself.
    """
    edge: list[Seg] = []
    cuts: list[Seg] = []
    for strip in strips:
        whole = strip.whole
        if edge and hypot(*(a - b for a, b in zip(seg_start(edge[-1]), seg_end(whole[0]), strict=True))) < _SAME:
            cuts.append(edge.pop())
            whole = whole[1:]
        edge += whole
    return tuple(edge), tuple(cuts)


def _back(angle: float) -> float:
    return 0.0 if angle >= pi / 2 - 1e-9 else 1.0 / tan(angle)


def sides(chain: Chain, sharp: tuple[Point, ...] = ()) -> list[Chain]:
    """An edge parted at its corners (those of the flat, and where it is folded); a round one is one side."""
    starts = [0, *(i + 1 for i, (a, b) in enumerate(pairwise(chain)) if _is_corner(a, b, sharp))]
    return [chain[i:j] for i, j in zip(starts, [*starts[1:], len(chain)], strict=True)]


def _is_corner(before: Seg, after: Seg, sharp: tuple[Point, ...]) -> bool:
    x, y = seg_start(after)
    return abs(_turn((before,), (after,))) > SHARP or any(hypot(x - p, y - q) < _NEAR for p, q in sharp)


def _ends(before: Chain, after: Chain) -> tuple[Point, Point]:
    """Directions of travel into and out of a corner."""
    return spot_at(before[-1:], seg_length(before[-1])).along, spot_at(after[:1], 0.0).along


def _turn(before: Chain, after: Chain) -> float:
    (ax, ay), (bx, by) = _ends(before, after)
    return atan2(ax * by - ay * bx, ax * bx + ay * by)


def _cuts(before: Chain, after: Chain, folds: tuple[Line, ...]) -> tuple[float, float]:
    """Angles [rad] at which the strips on either side of a corner are cut back."""
    coming, going = _ends(before, after)
    outside = (pi + _turn(before, after)) / 2
    leaving = [_away(f, seg_start(after[0])) for f in folds]
    inside = [d for d in leaving if d is not None]
    back = (-coming[0], -coming[1])
    return (
        min(_CUT, outside, *(_between(back, d) for d in inside)),
        min(_CUT, outside, *(_between(going, d) for d in inside)),
    )


def _away(fold: Line, corner: Point) -> Point | None:
    """The direction of a fold line that starts or ends at a corner, away from it."""
    for near, far in ((fold.start, fold.end), (fold.end, fold.start)):
        if hypot(near[0] - corner[0], near[1] - corner[1]) < _NEAR:
            long = hypot(far[0] - near[0], far[1] - near[1])
            return (far[0] - near[0]) / long, (far[1] - near[1]) / long
    return None


def _between(a: Point, b: Point) -> float:
    return acos(max(-1.0, min(1.0, a[0] * b[0] + a[1] * b[1])))
