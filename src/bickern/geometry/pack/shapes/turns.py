"""Which ways a part is tried: those it is allowed, or those that lay an edge of it along an edge of a sheet."""

import math
from collections.abc import Iterable, Sequence

from bickern.geometry.pack.shapes.asked import Part, Remnant
from bickern.geometry.polygon import Line, Loop, seg_length

QUARTER = math.pi / 2
MOST = 24  # turns tried of a part that may lie any way


def turns_of(part: Part, remnants: Sequence[Remnant]) -> tuple[float, ...]:
    """The turns [rad] to try, each once: quarter turns of what aligns the part's longest edges with the sheets'."""
    if part.turns is not None:
        return _once(part.turns)
    own = _directions([part.outline], 2) or [0.0]
    edges = _directions([r.outline for r in remnants], 3)
    ways = [*[0.0], *(e for e in edges if e > 1e-6)]
    leading = [way - mine for way in ways for mine in own]
    found = _once([lead + k * QUARTER for lead in leading for k in range(4)])
    return found[:MOST]


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
