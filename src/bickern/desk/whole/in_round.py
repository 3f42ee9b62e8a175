"""The set in the round: every part as a mesh and how it lies, in the world with z up; told in words beside it.

What hangs is shown as it hangs (or held in the hand at an angle), all else stood for the eye. What swings, and what it
runs into, is in `turned`.
"""

import hashlib
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from bickern.desk.answer import Row
from bickern.desk.reckon import Reckoning
from bickern.desk.whole.assemble import HAND, MOST_PARTS, can_go_together, hung, too_many, unrested, wrong_hold
from bickern.desk.whole.lots import APART, lots_of, set_out
from bickern.desk.whole.together import closing_rows, fit_rows, hang_rows
from bickern.geometry.pose import HERE, Pose, facing, put_all, then
from bickern.geometry.solid.files import glb
from bickern.geometry.solid.solid import Fineness, Named, Solid, moved
from bickern.geometry.space import Vec
from bickern.measure.finding import NOWHERE, Finding
from bickern.measure.units.say import say_mass_both
from bickern.measure.units.words import MILLIMETRE
from bickern.paper.copy import Copy
from bickern.paper.views.whole import looks
from bickern.parts.hang.held import wall_face
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult, parts_in
from bickern.parts.set.result import Fixing, SetResult
from bickern.parts.set.solids import fixing_solid, kept_solid, piece_solid
from bickern.parts.sheet.allowances import SheetRules

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

WALL = "the wall"
THICK, ROUND_IT = 12 * MILLIMETRE, 60 * MILLIMETRE
"""Of the wall's slab as it is shown: how thick, and how far it goes at least beyond the set [m]."""
ROW = 1.1
"""How long a row of lots that stand may be, in lengths of the longest."""
MOST_SINGLE = 6
"""Copies of a piece that are hidden one by one; more are hidden together."""
Y_UP = Pose(x=(1.0, 0.0, 0.0), y=(0.0, 0.0, 1.0))
"""From the coordinates of a GLB file, y up, back to our own, z up."""
Matrix = tuple[tuple[float, float, float, float], ...]
"""Four rows of four: a turn and a place [m]."""


@dataclass(frozen=True, slots=True)
class Shape:
    """A mesh as a GLB file (y up), known by what is in it: `name` is the same for the same metal."""

    name: str
    glb: bytes


@dataclass(frozen=True, slots=True)
class RoundPart:
    """One thing to see: its `name`, the `piece` it is one of, its body by number (-1: the wall), its shape by number.

    `lies`: how it lies in its body.
    """

    number: int
    name: str
    piece: str
    body: int
    shape: int
    lies: Pose


@dataclass(frozen=True, slots=True)
class RoundBody:
    """Parts that are rigid together, by number; `mass` in words; `pose`: how it lies in the world, z up [m]."""

    number: int
    name: str
    parts: tuple[int, ...]
    mass: str
    pose: Pose


@dataclass(frozen=True, slots=True)
class Group:
    """What is hidden together: its words, and the parts by number."""

    says: str
    parts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class RoundLook:
    """One way to look: its words, the way from the middle of the set to the eye, and what is upward."""

    says: str
    eye: Vec
    upward: Vec


@dataclass(frozen=True, slots=True, eq=False)
class Round:
    """The set to be turned and looked at. `how` says in words how it comes to lie so, and what is only a guess.

    `held` [degrees]: held in the hand so; None as the job says. `can_tilt`: whether it can be held in the hand. `lots`:
    bodies that move together in some way, each lot with its root first; `swings_from` False where nothing is known of
    how it swings. `copy` holds the set put together and how it hangs.
    """

    title: str
    how: str
    copy: Copy
    whole: SetResult
    bodies: tuple[RoundBody, ...]
    parts: tuple[RoundPart, ...]
    shapes: tuple[Shape, ...]
    groups: tuple[Group, ...]
    looks: tuple[RoundLook, ...]
    wall: float | None
    held: float | None
    can_tilt: bool
    lots: tuple[tuple[int, ...], ...]
    swings_from: bool
    findings: tuple[Finding, ...]


def round_of(done: Reckoning, held: float | None = None) -> Round | tuple[Finding, ...]:
    """The job in the round, held in the hand at `held` [degrees] where that is told; else why it cannot be shown."""
    if done.copy is None or not can_go_together(done):
        return tuple(f for f in done.findings if f.stops)
    done = hung(done)
    assert done.copy is not None
    made = _shown(done.copy, None)
    return tilted(made, held) if isinstance(made, Round) else made


def tilted(whole: Round, held: float | None) -> Round | tuple[Finding, ...]:
    """A set that is shown as the job says, held in the hand at `held` [degrees] instead; None: as it is."""
    wrong = wrong_hold(held)
    if wrong is not None:
        return (wrong,)
    place, rest = whole.whole.held, whole.copy.hang
    if held is None or not whole.can_tilt or place is None or rest is None:
        return whole
    from bickern.parts.hang.hang import held_at

    in_hand = replace(whole.whole, held=replace(place, on=HAND))
    now = held_at(in_hand, math.radians(held))
    where = whole.copy.job.hang.where if whole.copy.job.hang is not None else NOWHERE
    told_now = tuple(f.at(where) for f in now.findings)
    kept = tuple(f for f in whole.copy.findings if f not in rest.findings)
    copy = replace(
        whole.copy, set=in_hand, hang=replace(now, findings=told_now), findings=tuple(dict.fromkeys((*kept, *told_now)))
    )
    return _shown(copy, held)


def _shown(copy: Copy, held: float | None) -> Round | tuple[Finding, ...]:
    """A copy that is hung, or stood where nobody says how it hangs."""
    whole = copy.set if copy.set is not None else _apart(copy)
    if isinstance(whole, Finding):
        return (whole,)
    solids = [kept_solid(part.piece, copy.shop.sheet) for part in whole.parts]
    own = _own(whole, solids)
    poses = _poses(copy, whole, own)
    lying = [Named(one.name, moved(one.solid, poses[body])) for body, lot in own.items() for one in lot]
    low, high = _box([one.solid.points for one in lying])
    hangs = copy.hang is not None and whole.held is not None
    wall = wall_face(whole, whole.held, poses[whole.held.body]) if hangs and whole.held is not None else None
    parts, shapes = _parts(copy, whole, _slab(wall, low, high, swings=bool(whole.links or whole.pivots)))
    bodies = tuple(
        RoundBody(n, body.name, tuple(p.number for p in parts if p.body == n), _mass(body.mass, copy), poses[n])
        for n, body in enumerate(whole.bodies)
    )
    return Round(
        copy.job.title,
        _how(copy, whole, held),
        copy,
        whole,
        bodies,
        parts,
        shapes,
        _groups(whole, parts),
        _looks(copy, whole, lying, poses),
        wall,
        held if hangs else None,
        copy.job.hang is not None and hangs,
        _lots(whole, hangs=hangs),
        not (copy.hang is not None and hangs and unrested(copy.hang)),
        copy.findings,
    )


def _apart(copy: Copy) -> SetResult | Finding:
    """Pieces that nothing joins: each by itself."""
    from bickern.parts.set.assemble import assemble

    count = sum(parts_in(piece) for piece in copy.pieces)
    if count > MOST_PARTS:
        return too_many(count, copy.job.file)
    return assemble({piece.spec.name: piece for piece in copy.pieces}, (), rules=copy.shop.sheet)


def _own(whole: SetResult, solids: Sequence[Solid]) -> dict[int, list[Named]]:
    from bickern.parts.set.solids import body_solids

    return body_solids(whole, solids)


def _poses(copy: Copy, whole: SetResult, own: dict[int, list[Named]]) -> dict[int, Pose]:
    """Every body's pose: as it hangs; what does not hang stands beside that, or by itself."""
    if copy.hang is None or whole.held is None:
        return _in_rows(whole, own, set_out(whole, own))
    hung_poses = dict(enumerate(copy.hang.poses))
    hanging = next(lot for lot in lots_of(whole) if whole.held.body in lot)
    loose = [body for body in hung_poses if body not in hanging]
    if not loose:
        return hung_poses
    stood = set_out(whole, own)
    low, high = _box([put_all(hung_poses[b], one.solid.points) for b in hanging for one in own[b]])
    under, over = _box([put_all(stood[b], one.solid.points) for b in loose for one in own[b]])
    aside = Pose((low[0] - under[0], high[1] + APART - under[1], low[2] - under[2]))
    if over[0] - under[0] > over[1] - under[1]:  # the long way of the row lies along the wall, not into the room
        quarter = Pose(x=(0.0, 1.0, 0.0), y=(-1.0, 0.0, 0.0))
        aside = then(Pose((low[0] + over[1], high[1] + APART - under[0], low[2] - under[2])), quarter)
    return hung_poses | {body: then(aside, stood[body]) for body in loose}


def _in_rows(whole: SetResult, own: dict[int, list[Named]], poses: dict[int, Pose]) -> dict[int, Pose]:
    """Lots that stand side by side stood in rows instead, the low ones in front, so that none is small to see."""
    boxes = [
        (lot, *_box([put_all(poses[b], one.solid.points) for b in lot for one in own[b]])) for lot in lots_of(whole)
    ]
    widest = max(high[0] - low[0] for _, low, high in boxes)
    found: dict[int, Pose] = {}
    right = back = deep = 0.0
    for lot, low, high in sorted(boxes, key=lambda box: box[2][2]):
        if right > 0 and right + high[0] - low[0] > ROW * widest:
            right, back, deep = 0.0, back + deep + APART, 0.0
        shift = Pose((right - low[0], back - low[1], 0.0))
        found |= {body: then(shift, poses[body]) for body in lot}
        right, deep = right + high[0] - low[0] + APART, max(deep, high[1] - low[1])
    return found


def _lots(whole: SetResult, *, hangs: bool) -> tuple[tuple[int, ...], ...]:
    """Lots in which something can swing, each with what it is held by first."""
    lots = [lot for lot in lots_of(whole) if len(lot) > 1]
    if not hangs or whole.held is None:
        return tuple(lots)
    root = whole.held.body
    return tuple((root, *(body for body in lot if body != root)) for lot in lots if root in lot)


def _box(places: "Sequence[NDArray[np.float64]]") -> tuple[list[float], list[float]]:
    import numpy as np

    every = np.vstack(places)
    return every.min(axis=0).tolist(), every.max(axis=0).tolist()


def _slab(wall: float | None, low: Sequence[float], high: Sequence[float], *, swings: bool) -> Solid | None:
    """The wall behind what hangs on it, as far as anything can come that turns about a line through the set."""
    if wall is None:
        return None
    import numpy as np

    from bickern.geometry.solid.sweep import swept

    more = max(ROUND_IT, math.dist(low, high)) if swings else ROUND_IT
    y, z = ((low[i] - more, high[i] + more) for i in (1, 2))
    square = np.array(((y[0], z[0]), (y[1], z[0]), (y[1], z[1]), (y[0], z[1])))
    return swept(np.stack([np.insert(square, 0, x, axis=1) for x in (wall - THICK, wall)]))


def _parts(copy: Copy, whole: SetResult, slab: Solid | None) -> tuple[tuple[RoundPart, ...], tuple[Shape, ...]]:
    """Every part, every rivet, collar and pin, and the wall; things of one shape share it."""
    shapes: dict[str, Shape] = {}
    parts: list[RoundPart] = []

    def add(name: str, piece: str, body: int, shape: Shape, lies: Pose) -> None:
        shapes.setdefault(shape.name, shape)
        parts.append(RoundPart(len(parts), name, piece, body, list(shapes).index(shape.name), lies))

    for part in whole.parts:
        shape = _piece_shape(part.piece, copy.shop.sheet)
        add(part.name, part.piece.spec.name, part.body, shape, part.pose)
    for number, fixing in enumerate(whole.fixings, start=1):
        made = _fixing_shape(replace(fixing, body=0, pose=HERE, mass=0.0))
        if made is not None:
            add(f"{fixing.joint.kind} {number}", f"{fixing.joint.kind}s", fixing.body, made, fixing.pose)
    if slab is not None:
        add(WALL, WALL, -1, _shape(slab), HERE)
    return tuple(parts), tuple(shapes.values())


def _shape(solid: Solid) -> Shape:
    made = glb((Named("piece", solid),))
    return Shape(hashlib.sha256(made).hexdigest()[:16], made)


@lru_cache(maxsize=32)
def _piece_shape(piece: PieceResult, rules: SheetRules) -> Shape:
    """As swinging has it; but a ring, of which every corner would be seen, as fine as files want it."""
    return _shape(piece_solid(piece, Fineness.FINE) if isinstance(piece, RingResult) else kept_solid(piece, rules))


@lru_cache(maxsize=32)
def _fixing_shape(fixing: Fixing) -> Shape | None:
    solid = fixing_solid(fixing, Fineness.PREVIEW)
    return None if solid is None else _shape(solid)


def _mass(kg: float, copy: Copy) -> str:
    return say_mass_both(kg, copy.shop.style)


def _groups(whole: SetResult, parts: Sequence[RoundPart]) -> tuple[Group, ...]:
    """A few copies one by one, many of them together; all rivets together."""
    of: dict[str, list[RoundPart]] = {}
    for part in parts:
        of.setdefault(part.piece, []).append(part)
    found: list[Group] = []
    for piece, some in of.items():
        single = some[0].number < len(whole.parts) and len(some) <= MOST_SINGLE
        count = f"{piece}, all {len(some)}" if len(some) > 1 else some[0].name
        found += [Group(one.name, (one.number,)) for one in some] if single else [Group(count, _numbers(some))]
    return tuple(found)


def _numbers(parts: Sequence[RoundPart]) -> tuple[int, ...]:
    return tuple(one.number for one in parts)


SAYS = {"front": "From the front", "right side": "From the right", "top": "From above", "picture": "From aside"}
"""What the ways to look are called."""


def _looks(copy: Copy, whole: SetResult, lying: Sequence[Named], poses: dict[int, Pose]) -> tuple[RoundLook, ...]:
    face: Vec = (0.0, 0.0, 0.0)
    if copy.hang is not None and whole.held is not None:
        part = whole.parts[whole.held.part]
        face = facing(poses[part.body], part.pose.z)
    return tuple(RoundLook(SAYS[look.title], look.toward, look.upward) for look in looks(lying, face))


def _how(copy: Copy, whole: SetResult, held: float | None) -> str:
    """How it comes to lie as it is shown."""
    if copy.hang is not None and whole.held is not None:
        if held is not None:
            return f"held in the hand, {_raised(held)}"
        place = copy.job.hang.place if copy.job.hang is not None else ""
        return f"as it hangs: {place} on {whole.held.on}" if whole.held.on else f"as it hangs from {place}"
    if whole.links:
        return "the job does not say how it hangs: drawn with its first piece held level"
    if whole.pivots:
        return "as it is put together, laid on what it lies on steadily; that is a guess for the eye"
    return "stood on what it stands on steadily; that is a guess for the eye"


def _raised(degrees: float) -> str:
    if degrees == 0:
        return "level"
    return f"its free end {abs(degrees):g}° {'above' if degrees > 0 else 'below'} level"


def matrix_of(whole: Round, part: RoundPart, poses: dict[int, Pose] | None = None) -> Matrix:
    """What brings the mesh of a part, as its file has it (y up), into the world (z up) [m].

    `poses`: of bodies that do not lie as the round has them.
    """
    body = HERE if part.body < 0 else (poses or {}).get(part.body, whole.bodies[part.body].pose)
    pose = then(then(body, part.lies), Y_UP)
    return (*((pose.x[i], pose.y[i], pose.z[i], pose.origin[i]) for i in range(3)), (0.0, 0.0, 0.0, 1.0))


def shape_named(whole: Round, name: str) -> Shape | None:
    """The shape of that name; None where there is none."""
    return next((shape for shape in whole.shapes if shape.name == name), None)


def told(whole: Round) -> tuple[tuple[str, tuple[Row, ...]], ...]:
    """All that is said beside the picture: titles with their rows; none of a title that has none."""
    copy = whole.copy
    what = tuple((body.name, _body_says(whole, body)) for body in whole.bodies)
    fits = tuple((name, f"{word}; {says}" if says else word) for name, word, says in fit_rows(copy))
    titles = (
        ("What is shown", what),
        *hang_rows(copy),
        ("How it goes together", fits),
        ("Order of closing", closing_rows(copy)),
        ("Nothing printed confirms", tuple(("", says) for says in copy.not_validated)),
    )
    return tuple((title, rows) for title, rows in titles if rows)


def _body_says(whole: Round, body: RoundBody) -> str:
    parts = [whole.parts[n] for n in body.parts]
    single = [part.name for part in parts if part.number < len(whole.whole.parts)]
    fixing: dict[str, int] = {}
    for part in parts[len(single) :]:
        fixing[part.piece] = fixing.get(part.piece, 0) + 1
    names = [*single, *(f"{count} {name if count > 1 else name.removesuffix('s')}" for name, count in fixing.items())]
    return body.mass if len(names) < 2 else f"{body.mass}: {', '.join(names)}"


def tilts(whole: Round) -> tuple[Row, ...]:
    """How each thing hangs off plumb or level."""
    from bickern.paper.sheets.hang_words import drop_rows, tilt_rows

    if whole.copy.hang is None:
        return ()
    style = whole.copy.shop.style
    return (*tilt_rows(whole.copy.hang, style, whole.whole), *drop_rows(whole.copy.hang, style))


def line_views(whole: Round) -> str:
    """The same from the front, the right, above and aside in lines, as SVG for a page."""
    from bickern.paper.pens.svg import ON_SCREEN, svg
    from bickern.paper.sheets.together import face_of, hangs_from
    from bickern.paper.views.whole_figure import Rooms, figures

    copy = replace(whole.copy, set=whole.whole)
    solids = [Named(p.name, _solid_of(whole, p)) for p in whole.parts if p.body >= 0]
    rooms = Rooms(SHEET, SHEET, SHEET)
    drawn = figures(solids, hangs_from(copy), copy.shop.style, (rooms,), face_of(copy))[0]
    return svg(drawn.drawing, whole.title, look=ON_SCREEN)


SHEET = (0.15, 0.16)
"""Room for the line views [m]."""


def _solid_of(whole: Round, part: RoundPart) -> Solid:
    pose = then(whole.bodies[part.body].pose, part.lies)
    if part.number < len(whole.whole.parts):
        solid = kept_solid(whole.whole.parts[part.number].piece, whole.copy.shop.sheet)
    else:
        drawn = [f for f in whole.whole.fixings if fixing_solid(f, Fineness.PREVIEW) is not None]
        made = fixing_solid(drawn[part.number - len(whole.whole.parts)], Fineness.PREVIEW)
        assert made is not None
        solid = made
    return moved(solid, pose)
