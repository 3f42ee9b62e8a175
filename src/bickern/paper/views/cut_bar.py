"""A bar of the rack with the lengths that come off it: each with its letter, and the marks told from one end."""

from collections.abc import Sequence
from dataclasses import dataclass

from bickern.measure.units.words import Style
from bickern.paper.marks import (
    Anchor,
    Box,
    Drawing,
    Filled,
    Mark,
    Text,
    Tick,
    TickKind,
    Tone,
    Weight,
    corners,
    drawing,
    rectangle,
    text_width,
)
from bickern.paper.views.ruler import Ruler, ruler
from bickern.paper.views.strip import SIDE, SMALL, dimensions_below

HIGH = 0.007
"""How thick the bar is drawn [m]: its own thickness is told in words."""
LETTER = 0.0042
"""Capitals of the letters in the lengths [m]: read at arm's length."""
LEAST = 0.009
"""Narrowest that a length is drawn [m]: its letter goes in."""


@dataclass(frozen=True, slots=True)
class Length:
    """One length on the bar, from `start` to `end` [m] from the end that is cut first, and its letter."""

    letter: str
    start: float
    end: float


def cut_bar(length: float, cuts: Sequence[Length], left: str, wide: float, style: Style) -> Drawing:
    """A bar of `length` [m] cut into these, `wide` [m] at most on paper; what is `left` over is hatched and named.

    Lengths give way where they would be too narrow for their letters: the figures are true.
    """
    ends = [one.end for one in cuts]
    rule = ruler(ends, length, wide - SIDE, LEAST)
    box = Box(0.0, 0.0, rule.put(length), HIGH)
    found: list[Mark] = [rectangle(box), Tick((0.0, HIGH + 0.0022), TickKind.DATUM, 0.006)]
    for one in cuts:
        middle = (rule.put(one.start) + rule.put(one.end)) / 2
        found.append(Text((middle, (HIGH - LETTER) / 2), one.letter, LETTER, Anchor.MIDDLE, weight=Weight.BOLD))
        found.append(Tick((rule.put(one.end), HIGH / 2), TickKind.CHISEL, HIGH + 0.002))
    found += _left(cuts[-1].end if cuts else 0.0, length, left, rule)
    return drawing([*found, *dimensions_below([(rule.put(end), end) for end in ends], style)])


def _left(end: float, length: float, says: str, rule: Ruler) -> list[Mark]:
    """What is left over, hatched, its words in it or beside it."""
    first, last = rule.put(end), rule.put(length)
    if length - end < 1e-4:
        return []
    area = Filled(corners(Box(first, 0.0, last, HIGH)), Tone.HATCHED)
    if not says:
        return [area]
    room = text_width(says, SMALL) + 0.002
    if room < last - first:
        x = (first + last) / 2
        plate = Filled(corners(Box(x - room / 2, HIGH / 2 - 0.002, x + room / 2, HIGH / 2 + 0.002)), Tone.WHITE)
        return [area, plate, Text((x, (HIGH - SMALL) / 2), says, SMALL, Anchor.MIDDLE)]
    return [area, Text((last, HIGH + 0.0035), says, SMALL, Anchor.END)]
