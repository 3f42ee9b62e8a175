"""The same cuts and bars in a coarser unit, where that changes nothing that fits: sixteenths of an inch, and a kerf.

Where all cuts are whole multiples of one length, and one rest besides (their kerf), `k` of them fit a bar just where
the multiples add up to no more than what `k` rests leave of it. Other, smaller numbers that say the same do as well.
"""

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache

import numpy as np

FINE = 64
"""Units that the one length may be made, at most."""
FAR = 1 << 60
"""A length that no bar has."""


@lru_cache(256)
def coarser(
    cuts: tuple[int, ...], wants: tuple[int, ...], rooms: tuple[int, ...]
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Cuts and rooms in fewer units, so that just the same cuts fit each room together; as they are, if none do.

    Cuts longest first.
    """
    divisor, rest = multiples(cuts)
    if divisor <= 1 or not rooms:
        return cuts, rooms
    every = np.repeat(np.array(cuts, dtype=np.int64) // divisor, wants)
    longest, shortest = (np.concatenate(([0], each.cumsum())) for each in (every, every[::-1]))
    sizes = np.array(rooms, dtype=np.int64)
    k = np.arange(1 + np.searchsorted(shortest * divisor + np.arange(len(shortest)) * rest, sizes.max(), "right"))
    k = k[: len(shortest)]
    longest, shortest = longest[: len(k)], shortest[: len(k)]
    left = (sizes[:, None] - k * rest) // divisor
    fits, all_fit = left >= shortest, left >= longest
    held, over = np.minimum(left, longest), np.maximum(left + 1, shortest)
    for unit, own in _shares(rest, divisor):
        if cuts[-1] // divisor * unit + own <= 0:
            continue
        least = np.where(fits, held * unit + k * own, -FAR).max(axis=1)
        if (least < np.where(all_fit, FAR, over * unit + k * own).min(axis=1)).all():
            return tuple(cut // divisor * unit + own for cut in cuts), tuple(np.maximum(least, 0).tolist())
    return cuts, rooms


def multiples(cuts: Sequence[int]) -> tuple[int, int]:
    """The longest length that all cuts are multiples of but for one rest, and that rest; 0: all are alike."""
    divisor = math.gcd(*(cut - cuts[-1] for cut in cuts))
    return divisor, cuts[-1] % divisor if divisor else 0


def _shares(rest: int, divisor: int) -> Iterator[tuple[int, int]]:
    """The divisor and the rest in ever more units, each time nearer to what they are."""
    nearest = math.inf
    for unit in range(1, min(divisor, FINE + 1)):
        own = round(unit * rest / divisor)
        off = abs(own / unit - rest / divisor)
        if off < nearest:
            nearest = off
            yield unit, own
