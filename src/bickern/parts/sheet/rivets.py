"""Rivets along a lap: divided evenly between end margins, on both members, so that the holes meet when rolled."""

from math import ceil

from bickern.geometry.polygon import seg_length
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.chain import spot_at
from bickern.parts.sheet.net import Net
from bickern.parts.sheet.result import PatternHole, PatternLine
from bickern.parts.sheet.spec import Seam, SeamKind
from bickern.parts.sheet.trim import beside, lean, trimmed


def rivet_spots(net: Net, seam: Seam, rules: SheetRules) -> tuple[float, ...]:
    """Places [m] from the bottom along the seam: margins at both ends of the lap, no space over the pitch."""
    length, margin = seg_length(net.end), max(seam.width / 2, rules.rivet_edge * seam.rivet)
    low, high = (margin + trimmed(seam.width, angle) for angle in lean(net))
    room = length - low - high
    if room <= 0.0:
        return (length / 2,)
    spaces = max(1, ceil(room / seam.pitch - 1e-9)) if seam.pitch > 0.0 else 1
    return tuple(low + room * i / spaces for i in range(spaces + 1))


def rivet_rows(net: Net, seam: Seam, rules: SheetRules) -> tuple[PatternHole, ...]:
    """Holes in the lap (over the end edge) and their fellows under it (inside the start edge)."""
    if seam.kind is not SeamKind.RIVETED or seam.rivet <= 0.0:
        return ()
    size = seam.rivet + rules.rivet_clearance
    lap, under = (beside(net.end, seam.width / 2),), (beside(net.start, -seam.width / 2),)
    length = seg_length(net.end)
    spots = rivet_spots(net, seam, rules)
    return (
        *(PatternHole(spot_at(lap, s).point, size, "rivet") for s in spots),
        *(PatternHole(spot_at(under, length - s).point, size, "rivet, under the lap") for s in spots),
    )


def rivet_lines(net: Net, seam: Seam) -> tuple[PatternLine, ...]:
    """The lines that the rivets stand on."""
    if seam.kind is not SeamKind.RIVETED or seam.rivet <= 0.0:
        return ()
    return (
        PatternLine(beside(net.end, seam.width / 2), "rivet", "rivet line"),
        PatternLine(beside(net.start, -seam.width / 2), "rivet", "rivet line, under the lap"),
    )
