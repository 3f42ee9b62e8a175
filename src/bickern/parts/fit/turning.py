"""How far a lot of things turns about a line before it runs into what does not turn with it: asked of the meshes.

Metal within r of the line, with a gap g to all that it can meet, may turn by g/r unseen; so the lot goes on until a gap
is gone, and the angle at which it goes is then halved in. A place that turns keeps its distance from the line and its
height along it: so the lot is looked at in shells, each against what stands in its own shell and between its heights.
Two things that hang in one another touch at their contact at every angle: there the one that carries is cut away, as
little of it as leaves them apart at rest.
"""

import math
from dataclasses import dataclass, field, replace
from functools import reduce
from itertools import pairwise
from operator import itemgetter
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.pose import Pose, back, put_all, then, turning, within
from bickern.geometry.solid import triangles
from bickern.geometry.solid.apart import Ready, clash, gap, ready, room
from bickern.geometry.solid.combine import NOTHING, gathered, joined, shared, without
from bickern.geometry.solid.solid import Solid, moved
from bickern.geometry.solid.sweep import revolved
from bickern.geometry.space import Vec
from bickern.parts.fit.ahead import Ahead, ahead_of, safe_turn
from bickern.parts.fit.hinges import Hinge
from bickern.parts.fit.spans import Span, inside, span_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

CLOSE = math.radians(0.05)
"""How near to the true angle a touch is found [rad]."""
STRIDE = 0.002
"""What a place may go at a time [m], however near it passes: less than two pieces that pass through are thick."""
WORTH = math.radians(4.0)
"""The least that is turned at a time by looking ahead over strewn places: nearer to a touch the gap is asked."""
GRAIN = 1 / 32
"""How close places are strewn over a shell to look ahead, in parts of its farthest place."""
SHELLS = (1.0, 0.35, 0.12, 0.0)
"""Bounds of the shells about the line, in parts of the farthest place."""
WIDEST = math.radians(30.0)
"""The most that is turned at a time: no farther is a gap looked for than this needs."""
CUTS = (1.5, 2.0, 2.8, 4.0)
"""What is cut away of the carrier about a contact, in reaches of its metal."""
APART = 0.1
"""How far the two must be apart at rest once it is cut, in reaches of its metal."""
ALONG_THE_WAY = 5
"""Angles at which the room along the way is looked at."""


@dataclass(frozen=True, slots=True, eq=False)
class Lump:
    """One single solid thing: its name, the numbers of its part and its body, how it hangs, and its solid there.

    `own`: the same in its own coordinates, made ready once for all that are alike.
    """

    name: str
    part: int
    body: int
    pose: Pose
    solid: Solid
    own: Ready


@dataclass(frozen=True, slots=True, eq=False)
class Meeting:
    """Two lots of lumps that may run into one another: those that turn (lifted as they turn), and those that do not."""

    turn: tuple[Lump, ...]
    stay: tuple[Lump, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Shell:
    """Metal of a meeting that turns and goes no farther than `lever` [m] from the line, and what it may run into.

    `kept`: both made ready, once something asks how far they are apart.
    """

    meet: Meeting
    moving: Solid
    still: Solid
    lever: float
    ahead: Ahead | None
    kept: list[Ready] = field(default_factory=list)

    def both(self) -> tuple[Ready, Ready]:
        """What stays and what turns, ready to be asked."""
        if not self.kept:
            self.kept.extend((ready(self.still), ready(self.moving)))
        return self.kept[0], self.kept[1]


@dataclass(frozen=True, slots=True)
class Turn:
    """How far one way [rad], and the names of what stops it there and of what turns ("" where it goes half round)."""

    angle: float
    stops: str = ""
    turns: str = ""


def turned_both_ways(hinge: Hinge, meets: tuple[Meeting, ...]) -> tuple[Turn, Turn]:
    """How far the lot of a hinge turns against the right-hand rule, and with it."""
    rings = tuple(shell for meet in meets for shell in shells(hinge, meet))
    return _turn(hinge, rings, -1.0), _turn(hinge, rings, 1.0)


def room_along(hinge: Hinge, lumps: tuple[Lump, ...], low: float, high: float) -> tuple[float, str]:
    """The least room [m] over the middle half of a swing, and to what; ("": there is nothing but what it hangs in)."""
    turn, stay = _lots(hinge, lumps)
    pairs = [(t, s) for t in turn for s in stay if not (t.part in hinge.hung and s.part in hinge.carriers)]
    least, near = math.inf, ""
    for share in np.linspace(0.5, -0.5, ALONG_THE_WAY):
        way = posed(hinge, float(share) * (high if share > 0 else -low))
        lying = {t.part: then(way, t.pose) for t in turn}
        for apart, t, s in sorted(((_apart(t, lying[t.part], s), t, s) for t, s in pairs), key=itemgetter(0)):
            if apart < least:
                found = room(s.own, t.own, least, then(back(s.pose), lying[t.part]))
                least, near = (found, s.name) if found < least else (least, near)
    return (least, near) if near else (0.0, "")


def _apart(turns: Lump, pose: Pose, stays: Lump) -> float:
    """How far two lumps are apart at least [m]: as far as the boxes about them."""
    low, high = boxed(turns.own, pose)
    under, over = boxed(stays.own, stays.pose)
    return float(np.linalg.norm(np.maximum(np.maximum(low - over, under - high), 0.0)))


def posed(hinge: Hinge, angle: float) -> Pose:
    """How the lot comes to lie, once it is lifted."""
    return turning(hinge.point, hinge.axis, angle)


def meetings(hinge: Hinge, lumps: tuple[Lump, ...]) -> tuple[Meeting, ...]:
    """What may run into what: the parts that touch by nature against the carriers cut away, the rest as they are."""
    turn, stay = _lots(hinge, lumps)
    if not hinge.touches:
        return (Meeting(turn, stay),)
    hung = tuple(k for k in turn if k.part in hinge.hung)
    rest = tuple(k for k in turn if k.part not in hinge.hung)
    return Meeting(rest, stay), Meeting(hung, _cut_apart(hinge, hung, stay))


def shells(hinge: Hinge, meet: Meeting) -> tuple[Shell, ...]:
    """What turns, cut into shells about the line, each against what it can meet at all; the farthest first."""
    turns, stays = (_spans(hinge, lot) for lot in (meet.turn, meet.stay))
    for _ in range(2):  # what can meet nothing is left out, and what could only have met that
        turns, stays = _that_meet(turns, stays), _that_meet(stays, turns)
    if not (turns and stays):
        return ()
    may = reduce(Span.hull, (s for _, s in turns)).both(reduce(Span.hull, (s for _, s in stays)))
    if may.empty:
        return ()
    lots = [inside(gathered(*(k.solid for k, _ in lot)), may, hinge.point, hinge.axis) for lot in (turns, stays)]
    out = []
    for most, least in pairwise(SHELLS):
        shell = may.both(Span(least * may.far, most * may.far, may.low, may.high))
        moving, still = (NOTHING if shell.empty else inside(k, shell, hinge.point, hinge.axis) for k in lots)
        if len(moving.faces) and len(still.faces):
            out.append(_shell(hinge, meet, (moving, still), least > 0))
    return tuple(out)


def _shell(hinge: Hinge, meet: Meeting, both: tuple[Solid, Solid], strewn: bool) -> Shell:
    """The innermost shell is not strewn with places: about the line itself they say nothing of angles."""
    lever = span_of(both[0], hinge.point, hinge.axis).far
    ahead = ahead_of(*both, (hinge.point, hinge.axis), lever * GRAIN) if strewn else None
    return Shell(meet, *both, lever, ahead)


def _spans(hinge: Hinge, lot: tuple[Lump, ...]) -> list[tuple[Lump, Span]]:
    return [(k, span_of(k.solid, hinge.point, hinge.axis)) for k in lot if len(k.solid.faces)]


def _that_meet(lot: list[tuple[Lump, Span]], others: list[tuple[Lump, Span]]) -> list[tuple[Lump, Span]]:
    """Of a lot what can meet any of the others by turning."""
    return [(k, span) for k, span in lot if not all(span.both(other).empty for _, other in others)]


def _turn(hinge: Hinge, rings: tuple[Shell, ...], way: float) -> Turn:
    """Each shell for itself, as far as those before it let it go."""
    least = Turn(math.pi)
    for shell in rings:
        free, met = _stopped(hinge, shell, way, least.angle)
        if met is None:
            continue
        free, met = _halved(hinge, shell, way, (free, met))
        pose = posed(hinge, way * met)
        place = gap(*shell.both(), STRIDE, pose).on_a
        least = Turn(free, _named(shell.meet.stay, place), _named(shell.meet.turn, within(pose, place)))
    return least


def _stopped(hinge: Hinge, shell: Shell, way: float, limit: float) -> tuple[float, float | None]:
    """The last angle that is free and the first that is not (None: free up to the limit)."""
    free, angle = 0.0, 0.0
    while free < limit:
        if shell.ahead is not None and (safe := safe_turn(shell.ahead, angle, way)) > WORTH:
            free, angle = angle, min(angle + safe, limit)
            continue
        apart = room(*shell.both(), WIDEST * shell.lever, posed(hinge, way * angle))
        if apart <= 0:
            return free, angle
        free, angle = angle, min(angle + min(max(apart, STRIDE) / shell.lever, WIDEST), limit)
    return limit, None


def _halved(hinge: Hinge, shell: Shell, way: float, ends: tuple[float, float]) -> tuple[float, float]:
    free, met = ends
    while met - free > CLOSE:
        middle = (free + met) / 2
        hit = clash(*shell.both(), posed(hinge, way * middle))
        free, met = (free, middle) if hit else (middle, met)
    return free, met


def _cut_apart(hinge: Hinge, hung: tuple[Lump, ...], stay: tuple[Lump, ...]) -> tuple[Lump, ...]:
    """What stays, the carriers with the metal about each contact cut away, the least that parts them from the hung."""
    about = joined(*_balls(hinge, 2 * CUTS[-1] * hinge.reach))
    carriers = [shared(k.solid, about) for k in stay if k.part in hinge.carriers]
    near = shared(gathered(*(k.solid for k in hung)), about)
    asked = APART * hinge.reach
    for share in CUTS:
        left = [without(k, *_balls(hinge, share * hinge.reach)) for k in carriers]
        if share == CUTS[-1] or all(not len(k.faces) or room(k, near, asked) >= asked for k in left):
            break
    tools = _balls(hinge, share * hinge.reach)
    return tuple(replace(k, solid=without(k.solid, *tools)) if k.part in hinge.carriers else k for k in stay)


def _balls(hinge: Hinge, radius: float) -> tuple[Solid, ...]:
    """A ball about each contact."""
    turn = np.linspace(-math.pi / 2, math.pi / 2, 9)
    ball = revolved(radius * np.stack([np.cos(turn), np.sin(turn)], axis=1), 16)
    return tuple(moved(ball, Pose(place)) for place in hinge.touches)


def _lots(hinge: Hinge, lumps: tuple[Lump, ...]) -> tuple[tuple[Lump, ...], tuple[Lump, ...]]:
    """What turns, lifted, and what does not."""
    lift = Pose(hinge.lift)
    turn = tuple(k for k in lumps if k.body in hinge.movers)
    stay = tuple(k for k in lumps if k.body not in hinge.movers)
    if any(hinge.lift):
        turn = tuple(replace(k, pose=then(lift, k.pose), solid=moved(k.solid, lift)) for k in turn)
    return turn, stay


def boxed(solid: Ready, pose: Pose) -> "tuple[NDArray[np.float64], NDArray[np.float64]]":
    """The lowest and highest x, y and z [m] of an upright box about a solid that lies by a pose."""
    levels = solid.levels[-1]
    middles, axes = put_all(pose, levels.middles), np.abs(np.array((pose.x, pose.y, pose.z)))
    halves = levels.halves @ axes
    return (middles - halves).min(axis=0), (middles + halves).max(axis=0)


def _named(lumps: tuple[Lump, ...], place: Vec) -> str:
    """The name of the lump that a place [m] is on."""
    far = [_off(k, place) for k in lumps] if len(lumps) > 1 else [0.0]
    return lumps[int(np.argmin(far))].name


def _off(lump: Lump, place: Vec) -> float:
    """How far a place is off a lump's skin [m]; of one that is not near, only that it is far."""
    points, here = lump.solid.points, np.array(place)
    box = np.maximum(points.min(axis=0) - here, here - points.max(axis=0)).max()
    if box > STRIDE:
        return float(box) + STRIDE
    corners = points[lump.solid.faces]
    return float(triangles.nearest(corners, np.broadcast_to(here, corners.shape))[0])
