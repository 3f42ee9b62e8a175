"""How far two solids are apart, and whether they run into each other; one skin asked under many poses.

Exact for the flat triangles that are there, to `CLOSE`. These lie inside a rounded surface, and outside a hollow one,
by the sag that its maker tells: a gap is too wide, or too narrow, by no more than the sag of both skins.

A guess comes first: triangles are packed by place, each pack in a box that a rigid move takes along, and the
likeliest pairs of packs are followed down. manifold3d then has only to look whether anything lies nearer than
that, which is quick; asked without a guess it looks at all pairs there are.
"""

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.pose import HERE, Pose, back, put_all
from bickern.geometry.solid import triangles
from bickern.geometry.solid.combine import told
from bickern.geometry.solid.solid import Solid
from bickern.geometry.space import Vec

if TYPE_CHECKING:
    from manifold3d import Manifold
    from numpy.typing import NDArray

CLOSE = 1e-7
"""How near to the least distance an answer is [m]: a thousandth of what a smith can feel."""
PACK = 4
"""Triangles in a pack, and packs in a larger pack."""
SPLIT = 24
"""No triangle is longer than this part of its solid, for the guess."""
BEAMS = (32, 256, 2048)
"""Pairs followed down for a guess, and for a second and a third where something lies nearer."""
BESIDE = 24
"""Triangles of either solid looked at beside a place."""
AT_ONCE = 256
"""Pairs measured before the rest is looked over again."""


@dataclass(frozen=True, slots=True)
class Gap:
    """The least `distance` [m] between two solids, and where on either it is [m]; 0 where they overlap.

    Where they are farther apart than was asked, `distance` is infinite and the places are no numbers.
    """

    distance: float
    on_a: Vec
    on_b: Vec


NOWHERE: Vec = (math.nan, math.nan, math.nan)
FAR = Gap(math.inf, NOWHERE, NOWHERE)


@dataclass(frozen=True, slots=True, eq=False)
class Packs:
    """Packs of triangles: `hearts` (n, 3) lie one on each; `middles` and `halves` (n, 3) are of their boxes [m]."""

    hearts: "NDArray[np.float64]"
    middles: "NDArray[np.float64]"
    halves: "NDArray[np.float64]"


@dataclass(frozen=True, slots=True, eq=False)
class Ready:
    """A solid made ready to be asked often.

    `skin` (m, 3, 3) [m]: its triangles, long ones split, ordered by place. `levels`: packs, first each triangle for
    itself, then `PACK` of the level before in one. `body`: the solid as the cutting library holds it.
    """

    skin: "NDArray[np.float64]"
    levels: tuple[Packs, ...]
    body: "Manifold"


def ready(solid: Solid, parts: int = SPLIT) -> Ready:
    """Make a solid ready for `gap` and `clash`: worth it from the second question on. It must hold some metal.

    `parts`: no triangle of the skin is longer than this part of the solid; fewer are quicker made, and guess worse.
    """
    if len(solid.faces) == 0:
        msg = "a solid of no metal is nowhere, and so no distance away"
        raise ValueError(msg)
    size = float(np.linalg.norm(np.ptp(solid.points, axis=0)))
    skin = triangles.by_place(triangles.split(solid.points[solid.faces], size / parts))
    levels = [_packs(skin, skin.mean(axis=1), 1)]
    while len(levels[-1].hearts) > PACK * PACK:
        levels.append(_packs(skin, _hearts(levels[-1].hearts), PACK ** len(levels)))
    return Ready(skin, tuple(levels), told(solid))


def _hearts(inner: "NDArray[np.float64]") -> "NDArray[np.float64]":
    """Of the hearts of every `PACK` smaller packs the one that lies most in the middle."""
    choice = inner[np.minimum(np.arange(0, len(inner), PACK)[:, None] + np.arange(PACK), len(inner) - 1)]
    off = np.linalg.norm(choice - choice.mean(axis=1, keepdims=True), axis=2)
    middle: NDArray[np.float64] = choice[np.arange(len(choice)), off.argmin(axis=1)]
    return middle


def _packs(skin: "NDArray[np.float64]", hearts: "NDArray[np.float64]", size: int) -> Packs:
    """Packs of `size` triangles each about their hearts."""
    starts = np.arange(0, len(skin), size)
    least = np.minimum(np.minimum(skin[:, 0], skin[:, 1]), skin[:, 2])
    most = np.maximum(np.maximum(skin[:, 0], skin[:, 1]), skin[:, 2])
    low, high = np.minimum.reduceat(least, starts), np.maximum.reduceat(most, starts)
    return Packs(hearts, (low + high) / 2, (high - low) / 2)


def gap(a: Solid | Ready, b: Solid | Ready, within: float = math.inf, pose: Pose = HERE) -> Gap:
    """The least distance between two solids, looked for no farther than `within` [m]; b lies by `pose` beside a.

    0 where they overlap, or one lies wholly inside the other. The places are told in the coordinates of a.
    """
    first, second = _made_ready(a), _made_ready(b)
    if _far(first, second, within, pose):
        return FAR
    guess = _guess(first, second, BEAMS[0], pose)
    if guess.distance == 0:
        return guess
    limit = min(guess.distance, within)
    lying = _lying(second, pose)
    least = float(first.body.min_gap(lying, limit))
    if least >= limit - CLOSE:
        return guess if guess.distance <= within else FAR
    return _nearest(first, second, guess, least, pose) if least > 0 else _within_both(first.body ^ lying)


def room(a: Solid | Ready, b: Solid | Ready, within: float = math.inf, pose: Pose = HERE) -> float:
    """The distance of `gap` alone [m], without the places: quicker. Infinite where they are farther than asked."""
    first, second = _made_ready(a), _made_ready(b)
    if _far(first, second, within, pose):
        return math.inf
    limit = min(_guess(first, second, BEAMS[0], pose).distance, within)
    least = float(first.body.min_gap(_lying(second, pose), limit)) if limit > 0 else 0.0
    return least if least < within else math.inf


def bounds(a: Ready, b: Ready, packs: int, pose: Pose = HERE) -> tuple[float, float]:
    """The least and the most that `room` can be [m] unless they overlap, seen in no more than so many packs of each."""
    mine, yours = (next((k for k in solid.levels if len(k.hearts) <= packs), solid.levels[-1]) for solid in (a, b))
    pairs = np.indices((len(mine.hearts), len(yours.hearts))).reshape(2, -1).T
    way = put_all(pose, yours.hearts)[pairs[:, 1]] - mine.hearts[pairs[:, 0]]
    most = float(np.sqrt(np.einsum("ij,ij->i", way, way).min()))
    return float(_between(mine, yours, pairs, pose).min()), most


def clash(a: Solid | Ready, b: Solid | Ready, pose: Pose = HERE) -> bool:
    """Whether two solids share room: their skins cross, or one lies wholly inside the other; b lies by `pose`.

    Solids that touch without crossing do not clash, but for rounding (1e-12 of their size).
    """
    first, second = _made_ready(a), _made_ready(b)
    if _far(first, second, 0.0, pose):
        return False
    return _guess(first, second, BEAMS[0], pose).distance == 0 or not (first.body ^ _lying(second, pose)).is_empty()


def _made_ready(solid: Solid | Ready) -> Ready:
    return ready(solid) if isinstance(solid, Solid) else solid


def _far(a: Ready, b: Ready, within: float, pose: Pose) -> bool:
    """Whether the boxes of the largest packs alone show that the solids are farther apart than asked."""
    return bool(_between(a.levels[-1], b.levels[-1], _all_pairs(a, b), pose).min() > within)


def _all_pairs(a: Ready, b: Ready) -> "NDArray[np.intp]":
    """Each of the largest packs of one with each of the other."""
    return np.indices((len(a.levels[-1].hearts), len(b.levels[-1].hearts))).reshape(2, -1).T


def _lying(solid: Ready, pose: Pose) -> "Manifold":
    return solid.body.transform(np.array((pose.x, pose.y, pose.z, pose.origin)).T)


def _within_both(meeting: "Manifold") -> Gap:
    """Solids that overlap: a corner of the room that both share stands for the place."""
    place = _vec(meeting.to_mesh64().vert_properties[0])
    return Gap(0.0, place, place)


def _nearest(a: Ready, b: Ready, guess: Gap, least: float, pose: Pose) -> Gap:
    """Where the two skins have their least distance [m], which is known: from guesses, or else by looking at all."""
    enough = least + CLOSE
    found = _walked(a, b, guess, enough, pose)
    for beam in BEAMS[1:]:
        if found.distance <= enough:
            return found
        found = _walked(a, b, _guess(a, b, beam, pose), enough, pose)
    pairs, start = _candidates(a, b, enough, pose), 0
    while start < len(pairs) and found.distance > enough:
        found = _nearer(found, _measured(a, b, pairs[start : start + AT_ONCE], pose))
        start += AT_ONCE
    return found


def _guess(a: Ready, b: Ready, beam: int, pose: Pose) -> Gap:
    """A distance that there is, with its places; seldom more than the least."""
    return _measured(a, b, _candidates(a, b, math.inf, pose, beam), pose)


def _walked(a: Ready, b: Ready, found: Gap, enough: float, pose: Pose) -> Gap:
    """A guess made better by what lies beside it, again and again until nothing beside it is nearer."""
    before = math.inf
    while enough < found.distance < before:
        before = found.distance
        between = np.add(found.on_a, found.on_b) / 2
        mine, yours = _beside(a, between), _beside(b, put_all(back(pose), between[None])[0])
        pairs = np.stack(np.meshgrid(mine, yours, indexing="ij"), axis=-1).reshape(-1, 2)
        found = _nearer(found, _measured(a, b, pairs, pose))
    return found


def _beside(solid: Ready, place: "NDArray[np.float64]") -> "NDArray[np.intp]":
    """The triangles whose boxes are nearest to a place."""
    box = solid.levels[0]
    off = np.square(np.maximum(np.abs(box.middles - place) - box.halves, 0)).sum(axis=1)
    return np.argpartition(off, BESIDE)[:BESIDE] if len(off) > BESIDE else np.arange(len(off))


def _nearer(one: Gap, other: Gap) -> Gap:
    return min(one, other, key=lambda gap: gap.distance)


def _measured(a: Ready, b: Ready, pairs: "NDArray[np.intp]", pose: Pose) -> Gap:
    """The least distance of these pairs of triangles."""
    distance, p, q = triangles.nearest(a.skin[pairs[:, 0]], put_all(pose, b.skin[pairs[:, 1]]))
    return Gap(distance, _vec(p), _vec(q))


def _candidates(a: Ready, b: Ready, within: float, pose: Pose, beam: int = 0) -> "NDArray[np.intp]":
    """Pairs (n, 2) of triangles that may be the nearest, the likeliest first.

    From large packs to small: a pair is left out whose boxes are farther apart than any two places on the skins that
    were looked at. With a `beam`, only so many pairs with the nearest hearts are followed.
    """
    deep = max(len(a.levels), len(b.levels))
    pairs = _all_pairs(a, b)
    for level in range(deep - 1, -1, -1):
        if level < deep - 1:
            pairs = _opened(pairs, [len(r.levels[level].hearts) if level < len(r.levels) - 1 else 0 for r in (a, b)])
        mine, yours = (r.levels[min(level, len(r.levels) - 1)] for r in (a, b))
        way = put_all(pose, yours.hearts[pairs[:, 1]]) - mine.hearts[pairs[:, 0]]
        most = np.sqrt(np.einsum("ij,ij->i", way, way))
        within = min(within, float(most.min(initial=math.inf)))
        near = _between(mine, yours, pairs, pose) <= within
        pairs, most = pairs[near], most[near]
        if beam and len(pairs) > beam:
            pairs, most = (rows[np.argpartition(most, beam)[:beam]] for rows in (pairs, most))
    return pairs[np.argsort(most)]


def _between(mine: Packs, yours: Packs, pairs: "NDArray[np.intp]", pose: Pose) -> "NDArray[np.float64]":
    """How far apart the boxes of pairs of packs are at least [m]."""
    turned = yours.halves[pairs[:, 1]] @ np.abs(np.array((pose.x, pose.y, pose.z)))
    step = np.abs(put_all(pose, yours.middles[pairs[:, 1]]) - mine.middles[pairs[:, 0]])
    free = np.maximum(step - mine.halves[pairs[:, 0]] - turned, 0.0)
    return np.asarray(np.sqrt(np.einsum("ij,ij->i", free, free)))


def _opened(pairs: "NDArray[np.intp]", counts: list[int]) -> "NDArray[np.intp]":
    """Pairs of packs as pairs of what is in them; a side with a count of 0 stays as it is."""
    steps = np.arange(PACK)
    sides = [
        np.minimum(pairs[:, k, None] * PACK + steps, count - 1) if count else pairs[:, k, None]
        for k, count in enumerate(counts)
    ]
    mine, yours = np.broadcast_arrays(sides[0][:, :, None], sides[1][:, None, :])
    return np.stack((mine.ravel(), yours.ravel()), axis=1)


def _vec(place: "NDArray[np.float64]") -> Vec:
    return (float(place[0]), float(place[1]), float(place[2]))
