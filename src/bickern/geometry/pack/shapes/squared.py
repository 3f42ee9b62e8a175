"""Rectangles on rectangular sheets, side by side: exact fits, that a search by small steps does not find.

Each goes into the free room (of all greatest empty rectangles) that it fills best across one side: a rule of thumb,
tried with the parts in several orders. What is not all laid so is left to the search.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.pack.shapes.strip import is_rectangle
from bickern.geometry.polygon import Line, Loop, area, bounds, moved

TOUCH = 1e-9
"""Sizes within this [m] are alike."""
MOST = 200
"""Copies that are laid so: more take too long by this rule, and need no exact fit."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way a rectangle may lie: its turn [rad] and how wide and tall it is then [m], its gap added."""

    turn: float
    wide: float
    tall: float


@dataclass(frozen=True, slots=True)
class Room:
    """An empty rectangle of a sheet [m]: its lower left, and how wide and tall it is."""

    x: float
    y: float
    wide: float
    tall: float


def squared(parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing) -> Nest | None:
    """Every part laid upright on the cheapest sheet that takes them all, else on several; None: not so."""
    if sum(part.count for part in parts) > MOST or not all(map(is_rectangle, remnants)):
        return None
    ways = {part.key: _ways(part, spacing.gap) for part in parts}
    if not all(ways.values()):
        return None
    cheapest = sorted(remnants, key=lambda one: (one.cost, abs(area(one.outline))))
    for sheets in (*([one] for one in cheapest), cheapest):
        for order in _orders(parts, ways):
            laid = _laid(order, ways, sheets, spacing)
            if laid is not None:
                used = {one.remnant for one in laid}
                return Nest(laid, (), math.fsum(one.cost for one in sheets if one.key in used))
    return None


def _ways(part: Part, gap: float) -> tuple[Way, ...]:
    """The turns at which a part is an upright rectangle; none where it is no rectangle."""
    first = part.outline.segs[0]
    if not isinstance(first, Line):
        return ()
    along = math.atan2(first.end[1] - first.start[1], first.end[0] - first.start[0])
    turns = part.turns if part.turns is not None else tuple(n * math.pi / 2 - along for n in range(2))
    return tuple(way for turn in turns if (way := _way(part.outline, turn, gap)) is not None)


def _way(outline: Loop, turn: float, gap: float) -> Way | None:
    lying = moved(outline, turn=turn)
    (left, low), (right, top) = bounds(lying)
    wide, tall = right - left, top - low
    if not math.isclose(abs(area(lying)), wide * tall, rel_tol=1e-9):
        return None
    return Way(turn, wide + gap, tall + gap)


def _orders(parts: Sequence[Part], ways: dict[str, tuple[Way, ...]]) -> Iterator[tuple[Part, ...]]:
    """Every copy, the largest first: by metal, by the longer side, by the shorter."""
    copies = [part for part in parts for _ in range(part.count)]
    first = {part.key: ways[part.key][0] for part in parts}
    sizes: tuple[Callable[[Way], float], ...] = (
        lambda way: way.wide * way.tall,
        lambda way: max(way.wide, way.tall),
        lambda way: min(way.wide, way.tall),
    )
    for size in sizes:
        yield tuple(sorted(copies, key=lambda part: -size(first[part.key])))


def _laid(
    order: Sequence[Part], ways: dict[str, tuple[Way, ...]], sheets: Sequence[Remnant], spacing: Spacing
) -> tuple[Laid, ...] | None:
    """Each in turn where it fits best; None where one finds no room."""
    free = [[room] if (room := _room(sheet, spacing)) is not None else [] for sheet in sheets]
    laid = []
    for part in order:
        best = _best(ways[part.key], free)
        if best is None:
            return None
        number, room, way = best
        (left, low), _ = bounds(moved(part.outline, turn=way.turn))
        laid.append(Laid(part.key, sheets[number].key, way.turn, room.x - left, room.y - low))
        free[number] = _left(free[number], Room(room.x, room.y, way.wide, way.tall))
    return tuple(laid)


def _room(sheet: Remnant, spacing: Spacing) -> Room | None:
    """The sheet within its margin; one gap more, for each part brings its own along."""
    (left, low), (right, top) = bounds(sheet.outline)
    less = spacing.gap - 2 * spacing.margin
    wide, tall = right - left + less, top - low + less
    return Room(left + spacing.margin, low + spacing.margin, wide, tall) if min(wide, tall) > 0 else None


def _best(ways: Sequence[Way], free: Sequence[Sequence[Room]]) -> tuple[int, Room, Way] | None:
    """The first sheet that has room, and there the room that is left narrowest beside the part, low and left."""
    for number, rooms in enumerate(free):
        fits = [
            (min(room.wide - way.wide, room.tall - way.tall), room.y, room.x, n, k)
            for n, room in enumerate(rooms)
            for k, way in enumerate(ways)
            if way.wide <= room.wide + TOUCH and way.tall <= room.tall + TOUCH
        ]
        if fits:
            *_, n, k = min(fits)
            return number, rooms[n], ways[k]
    return None


def _left(rooms: Sequence[Room], taken: Room) -> list[Room]:
    """The greatest empty rectangles once one is taken; none lies within another."""
    parts = [piece for room in rooms for piece in _beside(room, taken)]
    unlike = list(dict.fromkeys(parts))
    return [one for one in unlike if not any(other is not one and _within(one, other) for other in unlike)]


def _beside(room: Room, taken: Room) -> Iterator[Room]:
    """What is left of a room on each side of what was taken; the room itself where they do not meet."""
    right, top = room.x + room.wide, room.y + room.tall
    far, high = taken.x + taken.wide, taken.y + taken.tall
    if taken.x >= right - TOUCH or far <= room.x + TOUCH or taken.y >= top - TOUCH or high <= room.y + TOUCH:
        yield room
        return
    if taken.x > room.x + TOUCH:
        yield Room(room.x, room.y, taken.x - room.x, room.tall)
    if far < right - TOUCH:
        yield Room(far, room.y, right - far, room.tall)
    if taken.y > room.y + TOUCH:
        yield Room(room.x, room.y, room.wide, taken.y - room.y)
    if high < top - TOUCH:
        yield Room(room.x, high, room.wide, top - high)


def _within(one: Room, other: Room) -> bool:
    return (
        one.x >= other.x - TOUCH
        and one.y >= other.y - TOUCH
        and one.x + one.wide <= other.x + other.wide + TOUCH
        and one.y + one.tall <= other.y + other.tall + TOUCH
    )
