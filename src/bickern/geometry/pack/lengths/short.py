"""Which cuts can be short, where bars have little more room than the others need: few sets of them, mostly."""

from collections.abc import Iterator, Sequence
from itertools import islice


def left_out(
    cuts: Sequence[int], wants: Sequence[int], short: int, least: int, most: int
) -> list[tuple[int, ...]] | None:
    """How many of each cut are wanted still, where so many are short that come to `least` end to end, or more.

    The longest short first; cuts longest first. None: there are more than `most` such ways.
    """
    found = list(islice(_left_out(cuts, wants, short, least), most + 1))
    return found if len(found) <= most else None


def _left_out(cuts: Sequence[int], wants: Sequence[int], short: int, least: int) -> Iterator[tuple[int, ...]]:
    """The same, one by one."""
    if not short:
        if least <= 0:
            yield tuple(wants)
        return
    if sum(wants) < short or longest(cuts, wants, short) < least:
        return
    for out in range(min(short, wants[0]), -1, -1):
        for rest in _left_out(cuts[1:], wants[1:], short - out, least - out * cuts[0]):
            yield wants[0] - out, *rest


def wanted(cuts: Sequence[int], wants: Sequence[int], short: int) -> int:
    """What cuts come to end to end, so many of them short, the longest; cuts longest first."""
    return sum(cut * want for cut, want in zip(cuts, wants, strict=True)) - longest(cuts, wants, short)


def longest(cuts: Sequence[int], wants: Sequence[int], count: int) -> int:
    """What so many cuts come to end to end at most; cuts longest first."""
    total = 0
    for cut, want in zip(cuts, wants, strict=True):
        total += cut * min(want, count)
        count -= min(want, count)
    return total
