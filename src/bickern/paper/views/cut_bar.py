"""A bar of the rack with the lengths that come off it: each with its letter, and the marks told from one end."""

from collections.abc import Sequence
from dataclasses import dataclass

from bickern.paper.marks import (
    Anchor,
    Box,
    Drawing,
    Filled,
    Line,
    Mark,
    Text,
    Tick,
    TickKind,
    Tone,
    Weight,
    corners,
    drawing,
    text_width,
)
from bickern.paper.views.ruler import Ruler, ruler
from bickern.paper.views.strip import SMALL, figures_below

HIGH = 0.007
"""How thick the bar is drawn [m]: its own thickness is told in words."""
LETTER = 0.0042
"""Capitals of the letters in the lengths [m]: read at arm's length."""
LEAST = 0.014
"""Narrowest that a length is drawn [m]: no figure's leader then runs through another figure."""
ROW = 10
"""Most lengths that are drawn in one row [-]: so many, and what is left, find room of `LEAST` on any paper."""
HALF = 0.0145
"""Half the longest figure and the pen: kept past a mark at the end of a row [m]."""
GOES_ON = 0.005
"""How far a bar that goes on in another row is drawn past its mark [m]."""


@dataclass(frozen=True, slots=True)
class Length:
    """One length on the bar, from `start` to `end` [m] from the end that is cut first, and its letter.

    `mark`: where it ends, in words: in the shop's own system, and in the other.
    """

    letter: str
    start: float
    end: float
    mark: tuple[str, str]


def cut_bar(length: float, cuts: Sequence[Length], left: str, wide: float, most: int = ROW) -> tuple[Drawing, ...]:
    """A bar of `length` [m] cut into these, `wide` [m] at most on paper, in as many rows as its figures need.

    `most`: lengths of one row, fewer where it is narrower than a sheet of paper. What is `left` over is hatched, and
    named where there is room. Lengths give way where they would be too narrow for their letters: the figures are true.
    A row that goes on where another ended tells that mark again.
    """
    count = max(1, -(-len(cuts) // most))
    share = -(-len(cuts) // count) if cuts else 1
    rows = [tuple(cuts[i : i + share]) for i in range(0, len(cuts), share)] or [()]
    return tuple(_row(rows, i, length, left, wide) for i in range(len(rows)))


def _row(rows: Sequence[Sequence[Length]], turn: int, length: float, left: str, wide: float) -> Drawing:
    """One row of a bar: its first ends with the flag, its last with what is left over; the others go on."""
    cuts, first, last = rows[turn], turn == 0, turn == len(rows) - 1
    begin = 0.0 if first else rows[turn - 1][-1].end
    stop = length if last else cuts[-1].end
    room = wide - HALF * (1 if first else 2)
    rule = ruler([one.end - begin for one in cuts], stop - begin, room, LEAST)
    found = [*_sides(rule.put(stop - begin), first, last), *_lettered(cuts, begin, rule)]
    if last:
        found += _left((cuts[-1].end if cuts else 0.0) - begin, length - begin, left, rule)
    ends = [(rule.put(one.end - begin), *one.mark) for one in cuts]
    return drawing([*found, *figures_below(ends if first else [(0.0, *rows[turn - 1][-1].mark), *ends])])


def _sides(right: float, first: bool, last: bool) -> list[Mark]:
    """The edges of the bar in one row, its true ends, and the flag; where it goes on it is drawn open."""
    start, end = 0.0 if first else -GOES_ON, right if last else right + GOES_ON
    found: list[Mark] = [Line((start, y), (end, y)) for y in (0.0, HIGH)]
    if first:
        found += [Line((0.0, 0.0), (0.0, HIGH)), Tick((0.0, HIGH + 0.0022), TickKind.DATUM, 0.006)]
    else:
        found.append(Tick((0.0, HIGH / 2), TickKind.CHISEL, HIGH + 0.002))
    return [*found, Line((right, 0.0), (right, HIGH))] if last else found


def _lettered(cuts: Sequence[Length], begin: float, rule: Ruler) -> list[Mark]:
    """The letter of each length, and the mark that ends it."""
    found: list[Mark] = []
    for one in cuts:
        middle = (rule.put(max(0.0, one.start - begin)) + rule.put(one.end - begin)) / 2
        found.append(Text((middle, (HIGH - LETTER) / 2), one.letter, LETTER, Anchor.MIDDLE, weight=Weight.BOLD))
        found.append(Tick((rule.put(one.end - begin), HIGH / 2), TickKind.CHISEL, HIGH + 0.002))
    return found


def _left(end: float, length: float, says: str, rule: Ruler) -> list[Mark]:
    """What is left over, hatched, and its words in it where they go in; the list tells them in any case."""
    first, last = rule.put(end), rule.put(length)
    if length - end < 1e-4:
        return []
    area = Filled(corners(Box(first, 0.0, last, HIGH)), Tone.HATCHED)
    room = text_width(says, SMALL) + 0.002
    if not says or room >= last - first:
        return [area]
    x = (first + last) / 2
    plate = Filled(corners(Box(x - room / 2, HIGH / 2 - 0.002, x + room / 2, HIGH / 2 + 0.002)), Tone.WHITE)
    return [area, plate, Text((x, (HIGH - SMALL) / 2), says, SMALL, Anchor.MIDDLE)]
