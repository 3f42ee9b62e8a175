"""A skin laid flat, as the smith cuts it: bottom and top edges, the seam's edges, lines to roll or fold along."""

from dataclasses import dataclass
from itertools import groupby
from math import degrees, hypot, radians

from bickern.geometry.develop.cutting import generators
from bickern.geometry.develop.pattern import Bend, Development
from bickern.geometry.polygon import Line, Loop, Point, seg_end, seg_start
from bickern.parts.sheet.chain import Chain, backward, chain_length
from bickern.parts.sheet.result import PatternLine

ROLL_LINES = 16
"""Lines to roll over in a whole round: enough to see that both ends turn alike."""

SLIGHT = radians(15)
"""A bend below which a line is one of many that make a round."""


@dataclass(frozen=True, slots=True)
class Net:
    """A skin without allowances [m]. `bottom` runs anticlockwise from the seam's start to its end, `top` beside it.

    So outside is on the right of `bottom` and on the left of `top`. A pointed skin has an empty `top` and its `tip`.
    `sharp`: places on its edges where it is folded, not rolled.
    """

    bottom: Chain
    top: Chain
    lines: tuple[PatternLine, ...] = ()
    tip: Point = (0.0, 0.0)
    sharp: tuple[Point, ...] = ()

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Bottom at the seam's start and end, top at the seam's end and start."""
        high_start = seg_start(self.top[0]) if self.top else self.tip
        high_end = seg_end(self.top[-1]) if self.top else self.tip
        return seg_start(self.bottom[0]), seg_end(self.bottom[-1]), high_end, high_start

    @property
    def end(self) -> Line:
        """The seam's second edge, upward (outside on its right)."""
        return Line(self.corners[1], self.corners[2])

    @property
    def start(self) -> Line:
        """The seam's first edge, downward (outside on its right)."""
        return Line(self.corners[3], self.corners[0])

    @property
    def outline(self) -> Loop:
        """The whole net, anticlockwise."""
        return Loop((*self.bottom, self.end, *backward(self.top), self.start))


def net_of(development: Development, parts: int = 1) -> Net:
    """The edges and lines of a developed skin, or of one of its `parts`."""
    base, top = development.edge("base"), development.edge("top")
    assert base is not None
    tip = development.seams[0].first.end
    return Net(
        base.segs, backward(top.segs) if top else (), tuple(_lines(development, parts)), tip, _sharp(development)
    )


def _sharp(development: Development) -> tuple[Point, ...]:
    """Both ends of a sharp fold, and the corner that a fan spreads from."""
    found: list[Point] = []
    for run in fans(development):
        if abs(sum(b.angle for b in run)) >= SLIGHT:
            first, last = run[0].line, run[-1].line
            ends = ((first.start, last.start), (first.end, last.end))
            found += [a for a, b in ends if hypot(a[0] - b[0], a[1] - b[1]) < 1e-7]
    return tuple(found)


def base_length(development: Development) -> float:
    """Length [m] of the bottom edge."""
    base = development.edge("base")
    return chain_length(base.segs) if base else 0.0


def _lines(development: Development, parts: int) -> list[PatternLine]:
    if development.bends:
        return [line for run in _worded(fans(development)) for line in _run(run)]
    count = max(4, ROLL_LINES // parts)
    inside = generators(development, count)[1:-1]
    return [PatternLine(line, "roll", "roll over these lines" if i == 0 else "") for i, line in enumerate(inside)]


def fans(development: Development) -> list[tuple[Bend, ...]]:
    """Bends in order round; three or more that spread from one corner stand together, each other one alone."""
    runs: list[tuple[Bend, ...]] = []
    for bend in development.bends:
        if runs and any(all(_at(bend, end) == _at(b, end) for b in runs[-1]) for end in (0, 1)):
            runs[-1] = (*runs[-1], bend)
        else:
            runs.append((bend,))
    # All bends of a pointed skin meet in its tip: those are its corners, not one corner's fan.
    pointed = development.edge("top") is None
    return [part for run in runs for part in ([(b,) for b in run] if pointed or len(run) < 3 else [run])]


def _worded(runs: list[tuple[Bend, ...]]) -> list[tuple[Bend, ...]]:
    """Slight bends one after another make a round, and share their words as a fan does."""
    found: list[tuple[Bend, ...]] = []
    for slight, group in groupby(runs, key=lambda run: len(run) == 1 and abs(run[0].angle) < SLIGHT):
        together = list(group)
        found += [tuple(run[0] for run in together)] if slight else together
    return found


def _at(bend: Bend, end: int) -> tuple[float, float]:
    x, y = (bend.line.start, bend.line.end)[end]
    return round(x, 7), round(y, 7)


def _run(run: tuple[Bend, ...]) -> list[PatternLine]:
    """Lines of a fan; words for all of them stand on the middle one, where each for itself would not be readable."""
    if len(run) == 1:
        return [_bend(run[0])]
    turned = [degrees(abs(b.angle)) for b in run]
    says = f"bend over these {len(run)} lines, {sum(turned):.1f} degrees in all"
    if max(turned) - min(turned) < 0.05:
        says = f"bend each of these {len(run)} lines {turned[0]:.1f} degrees"
    return [PatternLine(b.line, "bend", says if i == len(run) // 2 else "") for i, b in enumerate(run)]


def _bend(bend: Bend) -> PatternLine:
    turned = degrees(abs(bend.angle))
    if turned < 0.05:
        return PatternLine(bend.line, "mark")
    way = "" if bend.angle < 0.0 else ", the other way"
    return PatternLine(bend.line, "bend", f"bend {turned:.1f} degrees{way}")
