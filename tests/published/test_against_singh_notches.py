"""Against R. Singh, Introduction to Basic Manufacturing Processes and Workshop Technology, New Age, 2006.

Kind: book. Read in the source: page 358 as printed; publisher and year are from memory. Where single hems
meet at right angles their ends are clipped at half of it.
"""

import math

from shelf import Printed, book

from bickern.geometry.polygon import Line
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.spec import Edge, EdgeKind, Pyramid, SheetSpec


@book("singh_notches", by="slant notch")
def test_hems_that_meet_at_right_angles(row: Printed) -> None:
    """A square box with upright walls, its hem turned in along the top: the cut's angle from the edge, by its chord."""
    spec = SheetSpec("box", 0.001, "S235JR", Pyramid(4, 0.2, 0.199999, 0.1), edges=(Edge("top", EdgeKind.HEM, 0.006),))
    read = reckon_sheet(spec, SheetRules(), 7850.0)
    assert read.value is not None, read.findings
    level = read.value.net[0].outline.segs[1]
    assert isinstance(level, Line)
    along = math.atan2(level.end[1] - level.start[1], level.end[0] - level.start[0])
    found = []
    for seg in read.value.patterns[0].outline.segs:
        if isinstance(seg, Line) and math.dist(seg.start, seg.end) < 0.01:
            turn = (math.atan2(seg.end[1] - seg.start[1], seg.end[0] - seg.start[0]) - along) % math.pi
            found.append(min(turn, math.pi - turn))
    slants = [angle for angle in found if angle < 1.5]
    assert slants
    row.holds(max(slants, key=lambda angle: abs(angle - math.pi / 4)))
