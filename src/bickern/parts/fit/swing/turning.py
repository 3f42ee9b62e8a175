"""How far a lot of things turns about a line before it runs into what does not turn with it: asked of the meshes.

What turns keeps its distance from the line and its height along it, so the angle at which two triangles of two skins
first touch has a closed form (`strike`), and the least of all that can meet (`ahead`) is exact for the flat triangles
that are there. Two things that hang in one another touch at their contact at every angle: there the one that carries is
left out, as little of it as leaves them apart at rest.
"""

import math
from dataclasses import dataclass, replace
from operator import itemgetter
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.pose import Pose, back, put_all, standing, then, turning
from bickern.geometry.solid import triangles
from bickern.geometry.solid.apart import Ready, bounds, room
from bickern.parts.fit.swing.ahead import Ahead, Skin, ahead_of, crossed, first_touch, skin_of
from bickern.parts.fit.swing.hinges import Hinge

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

CUTS = (1.5, 2.0, 2.8, 4.0)
"""What is left out of the carrier about a contact, in reaches of its metal."""
APART = 0.1
"""How far the two must be apart at rest without it, in reaches of its metal."""
CRUMBS = 1 / 3
"""How small the carrier's triangles are made about a contact, in reaches of its metal."""
HALF_ROUND = math.pi
"""How far each way is looked at first [rad]: both together that is all round."""
ALONG_THE_WAY = 5
"""Angles at which the room along the way is looked at."""
FROM_AFAR, NEARER_BY = 16, 128
"""Packs of triangles that stand for a thing before its room is measured."""


@dataclass(frozen=True, slots=True, eq=False)
class Lump:
    """One single solid thing: its name, the numbers of its part and its body, and how it hangs.

    `own`: its solid in its own coordinates, made ready once for all that are alike.
    """

    name: str
    part: int
    body: int
    pose: Pose
    own: Ready


@dataclass(frozen=True, slots=True, eq=False)
class Coat:
    """The skin of a lump as it hangs, or what is left of it: triangles (n, 3, 3) [m]."""

    name: str
    corners: "Array"


@dataclass(frozen=True, slots=True, eq=False)
class Meeting:
    """Two lots that may run into one another: what turns (lifted as it turns), and what does not."""

    turn: tuple[Coat, ...]
    stay: tuple[Coat, ...]


@dataclass(frozen=True, slots=True)
class Turn:
    """How far one way [rad], and the names of what stops it there and of what turns ("" where it goes half round)."""

    angle: float
    stops: str = ""
    turns: str = ""


def turned_both_ways(hinge: Hinge, meets: tuple[Meeting, ...]) -> tuple[Turn, Turn]:
    """How far the lot of a hinge turns against the right-hand rule, and with it."""
    line = back(standing(hinge.point, hinge.axis, (1.0, 0.0, 0.0) if abs(hinge.axis[0]) < 0.7 else (0.0, 1.0, 0.0)))
    found = [(meet, ahead_of(_about(line, meet.turn), _about(line, meet.stay))) for meet in meets]
    asked = [(meet, ahead) for meet, ahead in found if ahead is not None]
    for meet, ahead in asked:
        if touch := crossed(ahead):
            stuck = Turn(0.0, meet.stay[touch.still].name, meet.turn[touch.moving].name)
            return stuck, stuck
    fro, on = _turn(asked, -1.0, HALF_ROUND), _turn(asked, 1.0, HALF_ROUND)
    if fro.stops and not on.stops:  # it may go on over the top until it comes from the other side
        on = _turn(asked, 1.0, math.tau - fro.angle)
    elif on.stops and not fro.stops:
        fro = _turn(asked, -1.0, math.tau - on.angle)
    return fro, on


def _about(line: Pose, coats: tuple[Coat, ...]) -> Skin:
    """Coats in the coordinates in which the line is z."""
    return skin_of([_put(line, coat.corners) for coat in coats])


def _put(pose: Pose, corners: "Array") -> "Array":
    return put_all(pose, corners.reshape(-1, 3)).reshape(-1, 3, 3)


def _turn(asked: list[tuple[Meeting, Ahead]], way: float, limit: float) -> Turn:
    """Each meeting for itself, as far as those before it let it go."""
    least = Turn(limit)
    for meet, ahead in asked:
        if touch := first_touch(ahead, way, least.angle):
            least = Turn(touch.angle, meet.stay[touch.still].name, meet.turn[touch.moving].name)
    return least


def room_along(hinge: Hinge, lumps: tuple[Lump, ...], low: float, high: float) -> tuple[float, str]:
    """The least room [m] over the middle half of a swing, and to what; ("": there is nothing but what it hangs in)."""
    turn, stay = lots(hinge, lumps)
    pairs = [(t, s) for t in turn for s in stay if not (t.part in hinge.hung and s.part in hinge.carriers)]
    seen = []
    for share in np.linspace(0.5, -0.5, ALONG_THE_WAY):
        way = posed(hinge, float(share) * (high if share > 0 else -low))
        for t, s in pairs:
            pose = then(back(s.pose), then(way, t.pose))
            seen.append((*bounds(s.own, t.own, FROM_AFAR, pose), t, s, pose))
    least, near = math.inf, ""
    for at_least, _, t, s, pose in sorted(seen, key=itemgetter(1)):
        if at_least < least and bounds(s.own, t.own, NEARER_BY, pose)[0] < least:
            found = _room(s.own, t.own, least, pose)
            least, near = (found, s.name) if found < least else (least, near)
    return (least, near) if near else (0.0, "")


def _room(one: Ready, other: Ready, within: float, pose: Pose) -> float:
    """The room between the two, the finer first: so it is found several times as quickly."""
    if len(other.skin) > len(one.skin):
        return room(other, one, within, back(pose))
    return room(one, other, within, pose)


def posed(hinge: Hinge, angle: float) -> Pose:
    """How the lot comes to lie, once it is lifted."""
    return turning(hinge.point, hinge.axis, angle)


def meetings(hinge: Hinge, lumps: tuple[Lump, ...]) -> tuple[Meeting, ...]:
    """What may run into what: the hung, which touch by nature, against what is left of the carriers; the rest whole."""
    turn, stay = lots(hinge, lumps)
    still = tuple(_coat(k) for k in stay)
    if not hinge.touches:
        return (Meeting(tuple(_coat(k) for k in turn), still),)
    hung = tuple(_coat(k) for k in turn if k.part in hinge.hung)
    rest = tuple(_coat(k) for k in turn if k.part not in hinge.hung)
    carry = [k.part in hinge.carriers for k in stay]
    cut = _cut_apart(hinge, hung, [coat for coat, carries in zip(still, carry, strict=True) if carries])
    left = tuple(cut.pop(0) if carries else coat for coat, carries in zip(still, carry, strict=True))
    return (*((Meeting(rest, still),) if rest else ()), Meeting(hung, left))


def _coat(lump: Lump) -> Coat:
    return Coat(lump.name, _put(lump.pose, lump.own.skin))


def _cut_apart(hinge: Hinge, hung: tuple[Coat, ...], carriers: list[Coat]) -> list[Coat]:
    """The carriers without the metal about each contact, the least that parts them from the hung."""
    far, asked = CUTS[-1] * hinge.reach, APART * hinge.reach
    against = np.concatenate([_near(hinge, coat.corners, far + asked)[0] for coat in hung])
    parted = [_near(hinge, coat.corners, far) for coat in carriers]
    crumbs = [triangles.split(near, CRUMBS * hinge.reach) for near, _ in parted]
    off = [_off(hinge, k) for k in crumbs]
    for share in CUTS:
        left = [k[far_off > share * hinge.reach] for k, far_off in zip(crumbs, off, strict=True)]
        if all(_parted(k, against, asked) for k in left):
            break
    return [
        Coat(coat.name, np.concatenate((whole, triangles.by_place(some))))
        for coat, (_, whole), some in zip(carriers, parted, left, strict=True)
    ]


def _near(hinge: Hinge, corners: "Array", far: float) -> "tuple[Array, Array]":
    """Triangles that come within a distance of a contact, and all others; long ones that do are split first."""
    near = _comes_near(hinge, corners, far)
    pieces = triangles.split(corners[near], far / 2)
    within = _comes_near(hinge, pieces, far)
    return pieces[within], np.concatenate((corners[~near], pieces[~within]))


def _comes_near(hinge: Hinge, corners: "Array", far: float) -> "NDArray[np.bool_]":
    off = corners - corners.mean(axis=1)[:, None]
    size = np.sqrt(np.einsum("nij,nij->ni", off, off).max(axis=1))
    return np.asarray(_off(hinge, corners) - size < far)


def _off(hinge: Hinge, corners: "Array") -> "Array":
    """How far the middles of triangles are off the nearest contact [m]."""
    apart = corners.mean(axis=1)[:, None] - np.array(hinge.touches)
    return np.asarray(np.sqrt(np.einsum("nij,nij->ni", apart, apart).min(axis=1)))


def _parted(some: "Array", others: "Array", asked: float) -> bool:
    """Whether two lots of triangles are as far apart as is asked [m]."""
    some, others = _beside(some, others, asked), _beside(others, some, asked)
    (low, high), (under, over) = _boxes(some), _boxes(others)
    near = np.ones((len(some), len(others)), dtype=bool)
    for k in range(3):
        near &= low[:, k, None] <= over[:, k] + asked
        near &= high[:, k, None] >= under[:, k] - asked
    one, other = np.divmod(np.flatnonzero(near), len(others))
    return len(one) == 0 or triangles.nearest(some[one], others[other])[0] >= asked


def _beside(some: "Array", others: "Array", asked: float) -> "Array":
    """Those that come so near to the box about all the others [m]."""
    if len(others) == 0:
        return some[:0]
    low, high = _boxes(some)
    under, over = others.min(axis=(0, 1)) - asked, others.max(axis=(0, 1)) + asked
    near = ((low <= over) & (high >= under)).all(axis=1)
    return np.asarray(some[near])


def _boxes(corners: "Array") -> "tuple[Array, Array]":
    """The lowest and the highest x, y and z of triangles."""
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    return np.minimum(np.minimum(a, b), c), np.maximum(np.maximum(a, b), c)


def lots(hinge: Hinge, lumps: tuple[Lump, ...]) -> tuple[tuple[Lump, ...], tuple[Lump, ...]]:
    """What turns, lifted, and what does not; an angle later it lies by `posed`."""
    lift = Pose(hinge.lift)
    turn = tuple(k for k in lumps if k.body in hinge.movers)
    stay = tuple(k for k in lumps if k.body not in hinge.movers)
    return tuple(replace(k, pose=then(lift, k.pose)) for k in turn), stay
