"""A plan in milliseconds, without a solver: bars filled one by one, each as full as it goes."""

from collections.abc import Callable, Iterator

from bickern.geometry.pack.lengths.sums import fillings
from bickern.geometry.pack.lengths.whole import Load, Pattern, Sharing, Whole, drop_value, shared


def greedy(whole: Whole, keep_going: Callable[[], bool] = lambda: True) -> Sharing:
    """The best of a few simple plans."""
    best = shared(whole, first_fit(whole))
    found = trimmed(whole, shared(whole, bar_by_bar(whole, keep_going)))
    return found if found.better_than(best) else best


def first_fit(whole: Whole) -> Iterator[Load]:
    """Longest cuts first, each into the fullest open bar that has room, else into the cheapest new one by length."""
    rooms: list[int] = []
    kinds: list[int] = []
    held: list[dict[int, int]] = []
    free = list(whole.counts)
    for i, (cut, want) in enumerate(zip(whole.cuts, whole.wants, strict=True)):
        for _ in range(want):
            at = min((b for b in range(len(rooms)) if rooms[b] >= cut), key=lambda b: rooms[b], default=None)
            if at is None:
                fits = [b for b, n in enumerate(free) if n and whole.rooms[b] >= cut]
                if not fits:
                    continue
                kind = min(fits, key=lambda b: (whole.costs[b] / whole.rooms[b], -whole.rooms[b]))
                free[kind] -= 1
                at = len(rooms)
                rooms.append(whole.rooms[kind])
                kinds.append(kind)
                held.append({})
            rooms[at] -= cut
            held[at][i] = held[at].get(i, 0) + 1
    return (Load(kind, tuple(sorted(h.items()))) for kind, h in zip(kinds, held, strict=True))


def bar_by_bar(whole: Whole, keep_going: Callable[[], bool] = lambda: True) -> Iterator[Load]:
    """Again and again the bar that costs least for the length it takes away, filled as full as it goes."""
    left, free = list(whole.wants), list(whole.counts)
    while any(left) and any(free) and keep_going():
        ways = fillings(whole.cuts, left, max(room for room, n in zip(whole.rooms, free, strict=True) if n))
        best: tuple[float, int, Pattern] | None = None
        for b in (b for b, n in enumerate(free) if n):
            pattern = ways.fullest(whole.rooms[b])
            taken = sum(whole.cuts[i] * k for i, k in pattern)
            if taken:
                rate = (whole.costs[b] - drop_value(whole, whole.rooms[b] - taken)) / taken
                best = min(best or (rate, b, pattern), (rate, b, pattern))
        if best is None:
            return
        _, b, pattern = best
        times = min(free[b], *(left[i] // n for i, n in pattern))
        free[b] -= times
        for i, n in pattern:
            left[i] -= n * times
        yield Load(b, pattern, times)


def trimmed(whole: Whole, sharing: Sharing) -> Sharing:
    """Each load moved to the bar where it costs least, among those left over."""
    free = list(whole.counts)
    singles = [load.pattern for load in sharing.loads for _ in range(load.times)]
    sizes = [sum(whole.cuts[i] * n for i, n in p) for p in singles]
    loads = []
    for at in sorted(range(len(singles)), key=lambda at: -sizes[at]):
        fits = [b for b, n in enumerate(free) if n and whole.rooms[b] >= sizes[at]]
        if not fits:
            return sharing
        kind = min(fits, key=lambda b: whole.costs[b] - drop_value(whole, whole.rooms[b] - sizes[at]))
        free[kind] -= 1
        loads.append(Load(kind, singles[at]))
    found = shared(whole, loads)
    return found if found.better_than(sharing) else sharing
