"""Folded pans: the bottom with its walls laid flat, corners notched.

Front and back walls run the whole width; side walls stand between them, their ends against the inside faces. `long` is
from front to back, `wide` from left to right; all sizes here are outside sizes.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import pi

from bickern.geometry.polygon import Line, Loop, Point, Seg, bounds, from_points, seg_end, seg_length, seg_start
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.bends import fold_deduction, fold_length
from bickern.parts.sheet.holes import divided
from bickern.parts.sheet.result import Pattern, PatternHole, PatternLine
from bickern.parts.sheet.rims import Tab, allowance, lug_length, shares_round, with_tabs
from bickern.parts.sheet.spec import Edge, EdgeKind, Pan, SheetSpec

WALLS = ("front", "right", "back", "left")
"""Walls in the order they stand round the bottom, anticlockwise from above."""


@dataclass(frozen=True, slots=True)
class Fold:
    """One right-angled fold: `setback` [m] from the outside face to where it starts, its flat `length`, `deduction`."""

    radius: float
    setback: float
    length: float
    deduction: float


def fold_of(pan: Pan, thick: float, rules: SheetRules) -> Fold:
    """The pan's folds by the shop's rule; the smallest radius where none is told."""
    radius = pan.inside_radius or rules.smallest_radius * thick
    return Fold(
        radius,
        radius + thick,
        fold_length(radius, thick, pi / 2, rules.fold),
        fold_deduction(radius, thick, pi / 2, rules.fold),
    )


def flat_sizes(pan: Pan, fold: Fold) -> tuple[float, float]:
    """Wide and long [m] of the flat, over all."""
    wall = pan.high - fold.deduction
    across = sum(w in pan.walls for w in ("left", "right"))
    along = sum(w in pan.walls for w in ("front", "back"))
    return pan.wide + across * wall, pan.long + along * wall


def pan_net(pan: Pan, thick: float, rules: SheetRules, name: str) -> Pattern:
    """The flat without hems or tabs."""
    fold = fold_of(pan, thick, rules)
    return Pattern(name, _outline(pan, fold, thick, {}, 0.0), (), (), _fold_lines(pan, fold))


def pan_cut(pan: Pan, spec: SheetSpec, rules: SheetRules, name: str) -> Pattern:
    """The flat as cut: hems, wires and lugs on its walls, tabs at its corners, holes in its back wall."""
    fold = fold_of(pan, spec.thick, rules)
    extra = {wall: _extra(spec, wall, rules) for wall in pan.walls}
    outline = _outline(pan, fold, spec.thick, extra, pan.corner_tabs)
    outline, lug_lines = _lugged(outline, pan, spec, rules)
    lines = (*_fold_lines(pan, fold), *_hem_lines(pan, fold, spec, extra), *_tab_lines(pan, fold, spec.thick))
    return Pattern(name, outline, (), _holes(pan, fold, spec), (*lines, *lug_lines))


def wall_tabs(pan: Pan, spec: SheetSpec, rules: SheetRules) -> tuple[tuple[str, float, tuple[Tab, ...]], ...]:
    """Each wall that has lugs, the length [m] of its top edge, and its lugs along that edge, anticlockwise."""
    edges = wall_edges(pan, spec.thick, rules)
    tabs = ((wall, seg_length(edge), _tabs(wall, edge, pan, spec, rules)) for wall, edge in edges)
    return tuple(found for found in tabs if found[2])


def wall_edges(pan: Pan, thick: float, rules: SheetRules) -> tuple[tuple[str, Seg], ...]:
    """Each wall and its top edge on the flat, anticlockwise, hems left off."""
    outline = _outline(pan, fold_of(pan, thick, rules), thick, {}, pan.corner_tabs)
    return tuple((wall, _top_edge(outline, wall)) for wall in WALLS if wall in pan.walls)


def _tabs(wall: str, edge: Seg, pan: Pan, spec: SheetSpec, rules: SheetRules) -> tuple[Tab, ...]:
    """Lugs are divided along the wall from the left, or from the front, as holes are."""
    axis = 0 if wall in ("front", "back") else 1
    onward = 1.0 if wall in ("front", "right") else -1.0
    return tuple(
        Tab(
            onward * (spot_on(pan, spec.thick, wall, share) - seg_start(edge)[axis]),
            lug.width,
            lug_length(lug, spec.thick, rules),
            lug.eye,
            lug.name,
        )
        for lug in spec.lugs
        if lug.on in (wall, "walls", "top")
        for share in shares_round(lug.number, lug.first)
    )


def spot_on(pan: Pan, thick: float, wall: str, share: float) -> float:
    """A place along a wall [m], `share` (0..1) of its own length from the left or the front; side walls are between."""
    if wall in ("front", "back"):
        return share * pan.wide
    low = thick if "front" in pan.walls else 0.0
    high = pan.long - (thick if "back" in pan.walls else 0.0)
    return low + share * (high - low)


def _lugged(outline: Loop, pan: Pan, spec: SheetSpec, rules: SheetRules) -> tuple[Loop, tuple[PatternLine, ...]]:
    segs, lines = list(outline.segs), list[PatternLine]()
    for wall, _, tabs in wall_tabs(pan, spec, rules):
        top = _top_edge(outline, wall)
        rim = with_tabs((top,), tabs)
        at = segs.index(top)
        segs[at : at + 1] = rim.edge
        lines += rim.lines
    return Loop(tuple(segs)), tuple(lines)


def _top_edge(outline: Loop, wall: str) -> Seg:
    """The side of the flat that is furthest out on a wall."""
    (x0, y0), (x1, y1) = bounds(outline)
    axis, limit = {"front": (1, y0), "back": (1, y1), "left": (0, x0), "right": (0, x1)}[wall]
    ends = ((seg_start(s)[axis], seg_end(s)[axis], s) for s in outline.segs)
    return next(s for a, b, s in ends if abs(a - limit) < 1e-12 and abs(b - limit) < 1e-12)


def holed_wall(pan: Pan) -> str:
    """The wall that takes the holes: the back, else the first there is."""
    return "back" if "back" in pan.walls else next((w for w in WALLS if w in pan.walls), "")


def _outline(pan: Pan, fold: Fold, thick: float, extra: dict[str, float], tabs: float) -> Loop:
    points: list[Point] = []
    for corner in _corners(pan):
        points += _corner_points(corner, pan, fold, thick, extra, tabs)
    kept = [p for p, before in zip(points, [points[-1], *points[:-1]], strict=True) if p != before]
    return from_points(kept)


@dataclass(frozen=True, slots=True)
class _Corner:
    """A corner of the bottom: where it is, which way is out along x and y, its walls, and how it is walked."""

    x: float
    y: float
    out_x: int
    out_y: int
    face: str
    side: str
    face_first: bool


def _corners(pan: Pan) -> tuple[_Corner, ...]:
    return (
        _Corner(0.0, 0.0, -1, -1, "front", "left", False),
        _Corner(pan.wide, 0.0, 1, -1, "front", "right", True),
        _Corner(pan.wide, pan.long, 1, 1, "back", "right", False),
        _Corner(0.0, pan.long, -1, 1, "back", "left", True),
    )


def _corner_points(c: _Corner, pan: Pan, fold: Fold, thick: float, extra: dict[str, float], tabs: float) -> list[Point]:
    """From the top of the face wall to the top of the side wall, round the notch; (u, v) are outward of the corner."""
    wall = pan.high - fold.deduction
    up_face, up_side = wall + extra.get(c.face, 0.0), wall + extra.get(c.side, 0.0)
    face, side = c.face in pan.walls, c.side in pan.walls
    if face and side:
        local = _both(fold, thick, up_face, up_side, wall, tabs)
    else:
        local = [(0.0, up_face)] if face else [(up_side, 0.0)] if side else [(0.0, 0.0)]
    placed = [(c.x + c.out_x * u, c.y + c.out_y * v) for u, v in local]
    return placed if c.face_first else placed[::-1]


def _both(fold: Fold, thick: float, up_face: float, up_side: float, wall: float, tabs: float) -> list[Point]:
    start, end = -fold.setback, fold.length - fold.setback
    notch = [(0.0, up_face), (0.0, end), (start, end), (start, start), (end, start)]
    if tabs <= 0.0:
        return [*notch, (end, -thick), (up_side, -thick)]
    # The tab folds inward and lies against the inside face of the face wall, one thickness clear of the bottom's fold.
    root, tip = -thick - fold.setback, -thick - fold.deduction + tabs
    low, high = max(end, 0.0) + thick, wall - thick
    return [*notch[:3], (start, root), (low, root), (low, tip), (high, tip), (high, root), (up_side, root)]


def _fold_lines(pan: Pan, fold: Fold) -> tuple[PatternLine, ...]:
    says = "fold up 90 degrees: the middle of the bend"
    inset = fold.setback - fold.length / 2
    return tuple(PatternLine(_wall_line(pan, fold, w, -inset), "bend", says) for w in WALLS if w in pan.walls)


def _wall_line(pan: Pan, fold: Fold, wall: str, out: float) -> Line:
    """A line along a wall, `out` [m] outward of the bottom's outside edge, as long as the fold."""
    low, high = fold_run(pan, fold, wall)
    if wall in ("front", "back"):
        y = -out if wall == "front" else pan.long + out
        return Line((low, y), (high, y))
    x = -out if wall == "left" else pan.wide + out
    return Line((x, low), (x, high))


def fold_run(pan: Pan, fold: Fold, wall: str) -> tuple[float, float]:
    """Where the fold of a wall begins and ends along its side [m], from the left or the front."""
    before, after, size = ("left", "right", pan.wide) if wall in ("front", "back") else ("front", "back", pan.long)
    return fold.setback * (before in pan.walls), size - fold.setback * (after in pan.walls)


def _extra(spec: SheetSpec, wall: str, rules: SheetRules) -> float:
    return sum(allowance(e, rules, spec.thick) for e in spec.edges if _is_on(e, wall))


def wall_finish(spec: SheetSpec, wall: str) -> Edge | None:
    """The finish asked for the top edge of a wall; a raw edge is none."""
    return next((e for e in spec.edges if _is_on(e, wall)), None)


def _is_on(edge: Edge, wall: str) -> bool:
    return edge.on in (wall, "walls", "top") and edge.kind is not EdgeKind.RAW


def _hem_lines(pan: Pan, fold: Fold, spec: SheetSpec, extra: dict[str, float]) -> tuple[PatternLine, ...]:
    """Outward, since inside a hem runs into the walls beside it and the tabs."""
    top = pan.high - fold.deduction
    finished = {w: wall_finish(spec, w) for w, more in extra.items() if more > 0.0}
    found = []
    for wall, edge in finished.items():
        assert edge is not None
        double = edge.kind is EdgeKind.DOUBLE_HEM
        if double:
            line = _wall_line(pan, fold, wall, top + extra[wall] / 2)
            found.append(PatternLine(line, "bend", "first fold of the hem, outward"))
        says = "second fold of the hem, outward" if double else f"{_HEMMED[edge.kind]}, outward"
        found.append(PatternLine(_wall_line(pan, fold, wall, top), "bend", says))
    return tuple(found)


_HEMMED = {EdgeKind.HEM: "fold the hem here", EdgeKind.WIRED: "top edge: turn it round the wire"}


def _tab_lines(pan: Pan, fold: Fold, thick: float) -> tuple[PatternLine, ...]:
    return tuple(_tab_fold(pan, fold, thick)) if pan.corner_tabs > 0.0 else ()


def _tab_fold(pan: Pan, fold: Fold, thick: float) -> Iterator[PatternLine]:
    low = max(fold.length - fold.setback, 0.0) + thick
    high = pan.high - fold.deduction - thick
    middle = -thick - fold.setback + fold.length / 2
    for c in _corners(pan):
        if c.face in pan.walls and c.side in pan.walls:
            y = c.y + c.out_y * middle
            line = Line((c.x + c.out_x * low, y), (c.x + c.out_x * high, y))
            yield PatternLine(line, "bend", "fold the tab in, behind the wall")


def _holes(pan: Pan, fold: Fold, spec: SheetSpec) -> tuple[PatternHole, ...]:
    wall = holed_wall(pan)
    if not wall:
        return ()
    found = []
    for hole in spec.holes:
        # `up` is from the pan's outside bottom: on the flat, so much below the wall's top edge.
        out = hole.up - fold.deduction
        for share in divided(hole):
            found.append(PatternHole(_on_wall(pan, spec.thick, wall, share, out), hole.size, hole.name))
    return tuple(found)


def _on_wall(pan: Pan, thick: float, wall: str, share: float, out: float) -> Point:
    """A place on the flat of a wall, `out` [m] outward of the bottom's outside edge."""
    along = spot_on(pan, thick, wall, share)
    places = {
        "front": (along, -out),
        "back": (along, pan.long + out),
        "left": (-out, along),
        "right": (pan.wide + out, along),
    }
    return places[wall]
