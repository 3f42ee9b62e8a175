"""Two parts on one rectangular sheet, by the search that a job's own `cut from:` is judged by.

What the reckoning says goes on a sheet must be found on that sheet in the rack too; the nest that serves for many parts
may miss it, since it stops where a search for two can go on.
"""

from collections.abc import Iterator, Sequence

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.polygon import Loop, area, bounds, moved
from bickern.parts.sheet.place import Placed, two_at_once

SURE = 6e-5
"""The search for two keeps its gap to 0.04 mm [m]: so much more is asked of it, and the nest is then exact."""


def pair(parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing) -> Nest | None:
    """Both of two parts on the cheapest rectangular sheet that they were found to go on; None of more, or of none."""
    copies = [part for part in parts for _ in range(part.count)]
    if len(copies) != 2 or any(part.turns is not None for part in parts):
        return None
    found = (nest for sheet in sorted(remnants, key=lambda one: one.cost) for nest in _on(sheet, copies, spacing))
    return next((nest for nest in found if not faults_of(nest, parts, remnants, spacing)), None)


def _on(sheet: Remnant, copies: Sequence[Part], spacing: Spacing) -> Iterator[Nest]:
    """The two on one sheet, where it is a plain rectangle and they were found to go on it."""
    (left, low), (right, high) = bounds(sheet.outline)
    wide, tall = right - left, high - low
    if sheet.cutouts or abs(area(sheet.outline) - wide * tall) > 1e-9:
        return
    first, second = copies
    room = (wide - 2 * spacing.margin, tall - 2 * spacing.margin)
    both = two_at_once(first.outline, second.outline, *room, spacing.gap + SURE) if min(room) > 0 else None
    if both is not None:
        corner = (left + spacing.margin, low + spacing.margin)
        laid = (_laid(first, sheet, both.first, corner), _laid(second, sheet, both.second, corner))
        yield Nest(laid, (), sheet.cost)


def _laid(part: Part, sheet: Remnant, placed: Placed, corner: tuple[float, float]) -> Laid:
    """Where a part lies, told from its own origin."""
    turned: Loop = moved(part.outline, turn=placed.turn)
    (x, y), _ = bounds(turned)
    return Laid(part.key, sheet.key, placed.turn, corner[0] + placed.x - x, corner[1] + placed.y - y)
