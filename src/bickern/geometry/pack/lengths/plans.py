"""Plans with bars that are given, where it is known what comes off those that are to be filled up: the rest."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from bickern.geometry.pack.lengths.bounds import shortest
from bickern.geometry.pack.lengths.filling import Room, Steps
from bickern.geometry.pack.lengths.given import Taken
from bickern.geometry.pack.lengths.placing import place
from bickern.geometry.pack.lengths.solver import Aim
from bickern.geometry.pack.lengths.whole import Load, Pattern, Sharing, Whole, kept_rooms, shared, without

STEPS = 3000
"""Steps that it may take to place what is left in bars kept."""


def rested(whole: Whole, aim: Aim, taken: Taken, bars: Sequence[int], patterns: Sequence[Pattern]) -> Sharing | None:
    """The plan where what is left goes short, longest first, or into the bars kept; None: not found."""
    left = without(whole.wants, *patterns)
    held = placed(whole, aim, taken, left)
    if held is None and not hopeless(whole, aim, taken, patterns):
        held = filled_in(whole, aim, taken, left)
    loads = [Load(b, pattern) for b, pattern in zip(bars, patterns, strict=True)]
    return None if held is None else shared(whole, (*loads, *held))


def filled_in(whole: Whole, aim: Aim, taken: Taken, left: Sequence[int]) -> list[Load] | None:
    """Cuts left, in bars kept, by all ways to place them: that takes longer than `placed`, and finds more."""
    rooms, bars = kept_rooms(whole), taken.bins()
    wants = shortest(replace(whole, wants=tuple(left)), sum(left) - aim.most_short)
    keep = [Room(rooms[b], 1) for b in bars]
    found = place(whole.cuts, wants, [], keep, sum(rooms), 0, Steps(STEPS)).patterns
    return None if found is None else [Load(b, pattern) for b, pattern in zip(bars, found, strict=True)]


def hopeless(whole: Whole, aim: Aim, taken: Taken, patterns: Sequence[Pattern]) -> bool:
    """Whether what is left beside these patterns goes into no bars kept, a cut at least in each."""
    left = without(whole.wants, *patterns)
    sizes = [whole.cuts[i] for i, n in enumerate(left) for _ in range(n)][aim.most_short :]
    kept = kept_rooms(whole)
    rooms = sorted(kept[b] for b in taken.bins())
    return (
        len(sizes) < len(rooms)
        or sum(sizes) > sum(rooms)
        or any(size > room for size, room in zip(reversed(sizes), rooms, strict=False))
    )


def placed(whole: Whole, aim: Aim, taken: Taken, wants: Sequence[int]) -> list[Load] | None:
    """Cuts that are left, in bars kept, the longest of them short: first the shortest, so that each bar has one.

    Then the longest first, each into the fullest bar that has room. None: that way they have no room.
    """
    left = [i for i, n in enumerate(wants) for _ in range(n)][aim.most_short :]
    rooms = kept_rooms(whole)
    order = sorted(taken.bins(), key=lambda b: rooms[b])
    free = [rooms[b] for b in order]
    held: list[list[int]] = [[] for _ in order]
    one_each = left[::-1][: len(order)]
    for own, i in [*enumerate(one_each), *((None, i) for i in left[: len(left) - len(one_each)])]:
        fits = [k for k, room in enumerate(free) if room >= whole.cuts[i] and own in (k, None)]
        if not fits:
            return None
        at = min(fits, key=lambda k: free[k])
        free[at] -= whole.cuts[i]
        held[at].append(i)
    return [Load(b, tuple(sorted(Counter(cuts).items()))) for b, cuts in zip(order, held, strict=True) if cuts]
