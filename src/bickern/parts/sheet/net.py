"""A skin laid flat, as the smith cuts it: bottom and top edges, the seam's edges, lines to roll or fold along."""

from dataclasses import dataclass
from math import degrees

from bickern.geometry.develop.cutting import generators
from bickern.geometry.develop.pattern import Bend, Development
from bickern.geometry.polygon import Line, Loop, Point, seg_end, seg_start
from bickern.parts.sheet.chain import Chain, backward, chain_length
from bickern.parts.sheet.result import PatternLine

ROLL_LINES = 16
"""Lines to roll over in a whole round: enough to see that both ends turn alike."""


@dataclass(frozen=True, slots=True)
class Net:
    """A skin without allowances [m]. `bottom` runs anticlockwise from the seam's start to its end, `top` beside it.

    So outside is on the right of `bottom` and on the left of `top`. A pointed skin has an empty `top` and its `tip`.
    """

    bottom: Chain
    top: Chain
    lines: tuple[PatternLine, ...] = ()
    tip: Point = (0.0, 0.0)

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
    return Net(base.segs, backward(top.segs) if top else (), tuple(_lines(development, parts)), tip)


def base_length(development: Development) -> float:
    """Length [m] of the bottom edge."""
    base = development.edge("base")
    return chain_length(base.segs) if base else 0.0


def _lines(development: Development, parts: int) -> list[PatternLine]:
    if development.bends:
        return [_bend(b) for b in development.bends]
    count = max(4, ROLL_LINES // parts)
    inside = generators(development, count)[1:-1]
    return [PatternLine(line, "roll", "roll over these lines" if i == 0 else "") for i, line in enumerate(inside)]


def _bend(bend: Bend) -> PatternLine:
    turned = degrees(abs(bend.angle))
    if turned < 0.05:
        return PatternLine(bend.line, "mark")
    way = "" if bend.angle < 0.0 else ", the other way"
    return PatternLine(bend.line, "bend", f"bend {turned:.1f} degrees{way}")
