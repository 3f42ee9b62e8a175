"""Which ways a part is tried: those it is allowed, or those that lay an edge of it along an edge of a sheet.

A part that is large for the sheets is also tried at the turns at which there is most room for it, and in even steps.
"""

import math
from collections.abc import Iterable, Sequence

from bickern.geometry.blank import fits_in, sizes_turned
from bickern.geometry.pack.shapes.asked import Part, Remnant
from bickern.geometry.polygon import Line, Loop, bounds, seg_length

QUARTER = math.pi / 2
MOST = 24
"""Turns tried of a part that may lie any way, edges laid along edges."""
STEP, FINE = math.radians(7.5), math.radians(1.25)
"""Even steps of a part that is large, and of one that goes on a sheet within a few turns only [rad]."""
FINEST = 24
"""A part that goes on a sheet at so few of the fine steps is tried at all of them."""
LARGE = 0.6
"""A part is large when it is longer than this share of the narrowest way across the widest sheet."""
TOUCH = 1e-6
"""How much larger than its room a part may be, for rounding [m]."""


def turns_of(part: Part, remnants: Sequence[Remnant], margin: float = 0.0) -> tuple[float, ...]:
    """The turns [rad] to try, each once: quarter turns of what aligns the part's longest edges with the sheets'."""
    if part.turns is not None:
        return _once(part.turns)
    own = _directions([part.outline], 2) or [0.0]
    edges = _directions([r.outline for r in remnants], 3)
    ways = [*[0.0], *(e for e in edges if e > 1e-6)]
    leading = [way - mine for way in ways for mine in own]
    found = _once([lead + k * QUARTER for lead in leading for k in range(4)])
    return _once([*found[:MOST], *_between(part, remnants, margin)])


def _between(part: Part, remnants: Sequence[Remnant], margin: float) -> list[float]:
    """Of a large part: even steps, finer ones where it has little choice, and the roomiest turn of each sheet."""
    rooms = [room for one in remnants if min(room := room_on(one, margin)) > 0]
    low, high = bounds(part.outline)
    if not rooms or math.dist(low, high) < LARGE * max(min(room) for room in rooms):
        return []
    best = {round(fit.turn, 9) for wide, tall in rooms if (fit := fits_in(part.outline, wide, tall)).fits}
    there = [[turn for turn in _even(step) if _goes(part.outline, turn, rooms)] for step in (STEP, FINE)]
    roomy = [turn + half for turn in sorted(best) for half in (0.0, math.pi)]
    return [*roomy, *(there[1] if len(there[1]) <= FINEST else there[0])]


def _even(step: float) -> list[float]:
    return [n * step for n in range(round(2 * math.pi / step))]


def room_on(remnant: Remnant, margin: float) -> tuple[float, float]:
    """Width and height [m] of the box of a sheet within its margin, and a hair more."""
    (x0, y0), (x1, y1) = bounds(remnant.outline)
    return x1 - x0 - 2 * margin + TOUCH, y1 - y0 - 2 * margin + TOUCH


def _goes(outline: Loop, turn: float, rooms: Sequence[tuple[float, float]]) -> bool:
    """Whether an outline so turned is within the box of a sheet."""
    wide, tall = sizes_turned(outline, turn)
    return any(wide <= room[0] and tall <= room[1] for room in rooms)


def _once(turns: Iterable[float]) -> tuple[float, ...]:
    found: list[float] = []
    for turn in turns:
        if not any(abs((turn - other + math.pi) % (2 * math.pi) - math.pi) < 1e-9 for other in found):
            found.append(turn)
    return tuple(found)


def _directions(loops: Sequence[Loop], most: int) -> list[float]:
    """Directions of the straight edges, modulo a right angle [rad], those of most length first."""
    lengths: dict[int, float] = {}
    exact: dict[int, float] = {}
    for loop in loops:
        for seg in loop.segs:
            if isinstance(seg, Line) and seg_length(seg) > 0:
                way = math.atan2(seg.end[1] - seg.start[1], seg.end[0] - seg.start[0]) % QUARTER
                step = round(way / 1e-4) % round(QUARTER / 1e-4)
                lengths[step] = lengths.get(step, 0.0) + seg_length(seg)
                exact.setdefault(step, 0.0 if step == 0 else way)
    return [exact[step] for step in sorted(lengths, key=lambda s: (-lengths[s], s))[:most]]
