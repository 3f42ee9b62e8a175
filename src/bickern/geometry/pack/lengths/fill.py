"""Bars filled up one after another, each as full as what is left allows, with steps back: a plan that wastes little."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from bickern.geometry.pack.lengths.last import Rest, few, filled_together
from bickern.geometry.pack.lengths.sums import more, sums, top
from bickern.geometry.pack.lengths.whole import Pattern, without

WAYS = 6
"""Fillings of a bar that are tried before a step back."""
SUMS = 3
"""Sums, fullest first, that a bar is filled to."""
TOGETHER = 4
"""Looks that it takes to fill the last bars together."""


@dataclass(slots=True)
class Looks:
    """How many fillings may still be looked at."""

    left: int


def filled(
    cuts: Sequence[int], wants: Sequence[int], rooms: Sequence[int], waste: int, looks: Looks, rest: Rest
) -> tuple[Pattern, ...] | None:
    """A pattern for each room, in the order given, with so much wasted at most, all together; None: not found."""
    if not rooms:
        return () if rest(wants) else None
    if few(wants):
        looks.left -= TOGETHER
        return filled_together(cuts, wants, rooms, waste, rest)
    reached = sums(cuts, wants, max(rooms))
    spare = waste - sum(room - top(reached, room) for room in rooms)
    room, best = rooms[0], top(reached, rooms[0])
    most = best
    for _ in range(SUMS):
        if spare < best - most or most <= 0:
            return None
        for pattern in _ways(cuts, wants, most):
            if looks.left <= 0:
                return None
            looks.left -= 1
            others = filled(cuts, without(wants, pattern), rooms[1:], waste - room + most, looks, rest)
            if others is not None:
                return (pattern, *others)
        most = top(reached, most - 1)
    return None


def _ways(cuts: Sequence[int], wants: Sequence[int], total: int) -> Iterator[Pattern]:
    """A few ways to add up to a length, the first cuts first."""
    sorts = [i for i, want in enumerate(wants) if want and cuts[i] <= total]
    reach = [1]
    for i in reversed(sorts):
        reach.append(more(reach[-1], cuts[i], wants[i], total))
    reach.reverse()
    stack: list[tuple[int, int, Pattern]] = [(0, total, ())]
    given = 0
    while stack and given < WAYS:
        at, rest, pattern = stack.pop()
        if not reach[at] >> rest & 1:
            continue
        if at == len(sorts) or not rest:
            given += 1
            yield pattern
            continue
        i = sorts[at]
        for n in range(min(wants[i], rest // cuts[i]) + 1):
            stack.append((at + 1, rest - n * cuts[i], (*pattern, (i, n)) if n else pattern))
