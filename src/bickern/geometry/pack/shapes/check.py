"""Whether a nest is what was asked: no overlap, nothing outside, gap and margin kept, every part laid or named short.

Arcs are measured as chords that leave them by at most `CHORD`, so a distance is known to twice that. What is short by
more than `EXACT` is always found; what keeps its distance is never blamed.
"""

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.result import Laid, Nest
from bickern.geometry.polygon import to_shapely

if TYPE_CHECKING:
    from shapely import Polygon

EXACT = 1e-5
"""Distances short by more than this [m] are found: a hundredth of a millimetre."""
CHORD = 2e-6
"""How far chords leave arcs [m]."""
SLACK = 5e-6
"""How much shorter a measured distance may be before it is blamed [m]: more than both chords, less than `EXACT`."""
SAME_TURN = 1e-6
"""Turns this near to each other are one [rad]."""


@dataclass(frozen=True, slots=True)
class _Lying:
    """One part where it lies, as a polygon, with what it is called in a fault."""

    name: str
    shape: "Polygon"


def faults_of(nest: Nest, parts: Sequence[Part], remnants: Sequence[Remnant], spacing: Spacing) -> tuple[str, ...]:
    """Everything that is wrong with a nest, in words; empty where it is sound."""
    wrong = [*_count_faults(nest, parts), *_sheet_faults(nest, remnants), *_turn_faults(nest, parts)]
    if any(not _is_known(one, parts, remnants) for one in nest.laid):
        return tuple(wrong)
    shapes = {part.key: to_shapely(part.outline, CHORD, part.cutouts) for part in parts}
    sheets = {sheet.key: to_shapely(sheet.outline, CHORD, sheet.cutouts) for sheet in remnants}
    crossing = [
        f"the outline of {key} crosses itself" for key, shape in {**shapes, **sheets}.items() if not shape.is_valid
    ]
    if crossing:
        return (*wrong, *crossing)
    for key, sheet in sheets.items():
        lying = [
            _Lying(f"{one.part} ({number})", put(shapes[one.part], one))
            for number, one in enumerate(nest.laid, 1)
            if one.remnant == key
        ]
        wrong += [*_edge_faults(key, sheet, lying, spacing.margin), *_pair_faults(key, lying, spacing.gap)]
    return tuple(wrong)


def put(shape: "Polygon", laid: Laid) -> "Polygon":
    """A part's polygon where it is laid."""
    from shapely.affinity import affine_transform

    c, s = math.cos(laid.turn), math.sin(laid.turn)
    moved: Polygon = affine_transform(shape, (c, -s, s, c, laid.x, laid.y))
    return moved


# ---- what is laid, and what is not


def _is_known(one: Laid, parts: Sequence[Part], remnants: Sequence[Remnant]) -> bool:
    """Whether a copy lies at some place, is a part that was asked and lies on a sheet that was given."""
    known = any(one.part == part.key for part in parts) and any(one.remnant == sheet.key for sheet in remnants)
    return known and all(map(math.isfinite, (one.turn, one.x, one.y)))


def _count_faults(nest: Nest, parts: Sequence[Part]) -> Iterator[str]:
    asked, laid, short = Counter[str](), Counter(one.part for one in nest.laid), Counter[str]()
    for part in parts:
        if part.key in asked:
            yield f"{part.key} is the key of two parts"
        asked[part.key] += part.count
    for key, count in nest.short:
        if count < 1:
            yield f"{key} is named short by {count}"
        short[key] += count
    for key in sorted({*asked, *laid, *short}):
        if laid[key] + short[key] != asked[key]:
            yield f"{key}: {laid[key]} laid and {short[key]} short of {asked[key]} asked"
    for number, one in enumerate(nest.laid, 1):
        if not all(map(math.isfinite, (one.turn, one.x, one.y))):
            yield f"{one.part} ({number}) lies nowhere"


def _sheet_faults(nest: Nest, remnants: Sequence[Remnant]) -> Iterator[str]:
    costs: dict[str, float] = {}
    for sheet in remnants:
        if sheet.key in costs:
            yield f"{sheet.key} is the key of two sheets"
        costs[sheet.key] = sheet.cost
    used = {one.remnant for one in nest.laid}
    for key in sorted(used - costs.keys()):
        yield f"{key} is no sheet that was given"
    cost = math.fsum(costs.get(key, 0.0) for key in used)
    if not math.isclose(nest.cost, cost, rel_tol=1e-9, abs_tol=1e-9):
        yield f"the sheets cut into cost {cost:g}, not {nest.cost:g}"


def _turn_faults(nest: Nest, parts: Sequence[Part]) -> Iterator[str]:
    turns = {part.key: part.turns for part in parts}
    for number, one in enumerate(nest.laid, 1):
        allowed = turns.get(one.part)
        if allowed is not None and math.isfinite(one.turn) and not any(_same_turn(one.turn, turn) for turn in allowed):
            yield f"{one.part} ({number}) is turned by {math.degrees(one.turn):g} degrees, which is not allowed"


def _same_turn(a: float, b: float) -> bool:
    return abs((a - b + math.pi) % (2 * math.pi) - math.pi) <= SAME_TURN


# ---- where it lies


def _edge_faults(key: str, sheet: "Polygon", lying: Sequence[_Lying], margin: float) -> Iterator[str]:
    """Parts that are not inside the sheet, or nearer to its edge or holes than `margin` [m]."""
    import shapely

    least = margin - SLACK
    room = sheet if least > 0 else sheet.buffer(-least)
    edge = shapely.boundary(sheet)
    shapely.prepare(room)
    shapely.prepare(edge)
    for one in lying:
        if not shapely.covers(room, one.shape):
            far = one.shape.difference(sheet)
            yield f"{one.name} is outside {key} by up to {_mm(_reach(far, sheet))}"
        elif least > 0 and shapely.dwithin(edge, one.shape, least):
            yield f"{one.name} is {_mm(shapely.distance(edge, one.shape))} from the edge of {key}: {_mm(margin)} asked"


def _pair_faults(key: str, lying: Sequence[_Lying], gap: float) -> Iterator[str]:
    """Pairs of parts that overlap or are nearer to each other than `gap` [m]."""
    import shapely

    shapes = [one.shape for one in lying]
    if len(shapes) < 2:
        return
    least = gap - SLACK
    breaks = _nearer(least)
    for i, j in shapely.STRtree(shapes).query(shapes, predicate="dwithin", distance=max(0.0, least)).T:
        if i < j and breaks(shapes[i], shapes[j]):
            a, b = lying[i], lying[j]
            apart = float(shapely.distance(a.shape, b.shape))
            if apart > 0:
                yield f"{a.name} is {_mm(apart)} from {b.name} on {key}: {_mm(gap)} asked"
            else:
                yield f"{a.name} overlaps {b.name} on {key}"


def _nearer(least: float) -> "Callable[[Polygon, Polygon], bool]":
    """Whether two polygons are nearer than `least` [m]; below 0: whether one reaches that deep into the other."""
    if least > 0:
        return lambda a, b: True  # all that the search finds
    return lambda a, b: bool(a.buffer(least).intersects(b) or b.buffer(least).intersects(a))


def _reach(far: "Polygon", sheet: "Polygon") -> float:
    """How far what is outside lies from the sheet at most [m]."""
    import shapely

    corners = shapely.points(shapely.get_coordinates(far))
    return max(map(float, shapely.distance(corners, sheet)), default=0.0)


def _mm(metres: float) -> str:
    return f"{metres * 1000:.3f} mm"
