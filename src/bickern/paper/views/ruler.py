"""Places along a bar laid out over the width of a page: long plain stretches give way, and no label covers another."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

LEAST = 0.011
"""Narrowest stretch between two places on paper [m]: a mark and its name fit in."""
EVEN = 1e-3
"""Stretches drawn within this share of one scale count as drawn to scale."""


@dataclass(frozen=True, slots=True)
class Ruler:
    """Places along the iron `knots` [m] and where each lies on the paper `at` [m]; between them evenly."""

    knots: tuple[float, ...]
    at: tuple[float, ...]

    def put(self, s: float) -> float:
        """Where the place `s` [m] along the iron lies on the paper [m]."""
        i = min(max(bisect_right(self.knots, s) - 1, 0), len(self.knots) - 2)
        a, b = self.knots[i], self.knots[i + 1]
        return self.at[i] + (self.at[i + 1] - self.at[i]) * (s - a) / (b - a)

    @property
    def to_scale(self) -> bool:
        """Whether every stretch is drawn to one scale."""
        scales = [
            (q - p) / (b - a) for a, b, p, q in zip(self.knots, self.knots[1:], self.at, self.at[1:], strict=False)
        ]
        return max(scales) - min(scales) <= EVEN * max(scales)


def ruler(places: Sequence[float], length: float, wide: float, least: float = LEAST) -> Ruler:
    """`length` [m] of iron over `wide` [m] of paper, each stretch between two places at least `least` [m] wide.

    Iron shorter than the paper is drawn at full size.
    """
    knots = _apart([0.0, *(s for s in sorted(places) if 0.0 < s < length), length], length)
    spans = [b - a for a, b in pairwise(knots)]
    room = min(wide, max(length, least * len(spans)))
    widths = _widths(spans, room, min(least, room / len(spans)))
    at = [0.0]
    for width in widths:
        at.append(at[-1] + width)
    return Ruler(tuple(knots), tuple(at))


def _apart(places: Sequence[float], length: float) -> list[float]:
    """The places in order, those that are one and the same kept once, the last one kept always."""
    kept = [places[0]]
    for s in places[1:-1]:
        if s - kept[-1] > 1e-6 and length - s > 1e-6:
            kept.append(s)
    return [*kept, places[-1]]


def _widths(spans: Sequence[float], room: float, least: float) -> list[float]:
    """Widths at one scale, save those that would be too narrow, which get `least`; they fill the room."""
    narrow: set[int] = set()
    while True:
        rest = room - least * len(narrow)
        open_spans = sum(span for i, span in enumerate(spans) if i not in narrow)
        scale = rest / open_spans if open_spans > 0 else 0.0
        more = {i for i, span in enumerate(spans) if i not in narrow and span * scale < least - 1e-12}
        if not more:
            return [least if i in narrow else span * scale for i, span in enumerate(spans)]
        narrow |= more


def levels(spans: Sequence[tuple[float, float]], gap: float = 0.002) -> list[int]:
    """For labels that reach from left to right [m]: the first level on which each covers none before it."""
    ends: list[float] = []
    found = []
    for left, right in spans:
        level = next((i for i, end in enumerate(ends) if left >= end + gap), len(ends))
        if level == len(ends):
            ends.append(right)
        ends[level] = right
        found.append(level)
    return found
