"""What would hang otherwise: a ring more or fewer, an eye moved or filed, a tie longer, the handle raised."""

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from bickern.geometry.pose import Pose, facing, seen, standing, then
from bickern.geometry.space import Vec, times
from bickern.measure.units.say import say_length
from bickern.measure.units.words import INCH, MILLIMETRE, Style, System
from bickern.parts.hang.bridle import UP, facing_pose, settle_bridle
from bickern.parts.hang.hanging import Hanging, drop_of, hung_up, tilts_of
from bickern.parts.hang.held import HAND, held_fast
from bickern.parts.hang.loaded import loaded
from bickern.parts.hang.order import Bridle
from bickern.parts.hang.rests import Tracks, bridled, hung_of
from bickern.parts.hang.result import Change, HangResult, Tilt
from bickern.parts.hang.settle import settle
from bickern.parts.hang.spread import aside, kept, lies_level
from bickern.parts.hang.ties import Stay
from bickern.parts.hang.tilt import TRUE
from bickern.parts.hang.track import OVER, Track, bearing, moved_by, track_of
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.result import Spot, SpotKind
from bickern.parts.set.spots.seats import ring_seat
from bickern.parts.sheet.result import SheetResult

LONGER = 2
"""Of the steps below, the third: how far an eye is moved, how far it is filed, how much longer one tie is."""
_STEPS = {
    System.INCH: (INCH / 16, INCH / 32, INCH / 8),
    System.MM: (2 * MILLIMETRE, 1 * MILLIMETRE, 3 * MILLIMETRE),
}
"""What a smith would try first, in each system [m]; small next to anything that hangs (our choice, no rule)."""
HANDLES = tuple(math.radians(a) for a in (-90, -60, -30, 30, 60, 90))
STUCK = math.radians(0.2)
"""How much more or less it must tip for that to be told (chosen here)."""
_POINT = 1e-5
"""Metres: the round of what is read as a point."""
_MOST = 6
_ROW = 3
"""Of so many in a row only the first and the last are named."""
_BORED = (SpotKind.EYE, SpotKind.OPENING)


def changes_of(hanging: Hanging, found: HangResult, style: Style) -> tuple[Change, ...]:
    """The few changes that a smith would think of, each with the tilts that follow."""
    if held_fast(hanging.held) == HAND:
        return tuple(_raised(hanging, found, style))
    eyes = (change for change in _eyes(hanging, style) if not _stays(change, found.tilts))
    told = [
        *_one_side(hanging),
        *_loaded(hanging),
        *_rings(hanging, found),
        *_stuck(hanging, found),
        *_ties(hanging, style),
        *eyes,
    ]
    return tuple(told[:_MOST])


def _stays(change: Change, before: tuple[Tilt, ...], least: float = TRUE) -> bool:
    """Whether a change leaves every tilt as it was, within what can be told [rad]."""
    was = {(t.part, t.off): (t.toward, t.angle) for t in before}
    return all(_alike(was.get((t.part, t.off)), (t.toward, t.angle), least) for t in change.tilts)


def _alike(was: tuple[str, float] | None, now: tuple[str, float], least: float) -> bool:
    """Two tilts to one side differ by their difference, to two sides by their sum."""
    if was is None:
        return False
    return abs(was[1] - now[1]) < least if was[0] == now[0] else was[1] + now[1] < least


def _one_side(hanging: Hanging) -> Iterator[Change]:
    """All that is spread round a level loop hung on one side of it."""
    for group in kept(hanging.order, hanging.tracks):
        body = group[0].upper
        loop = hanging.tracks.links[group[0].number][0]
        tracks = aside(hanging.order, hanging.tracks, group, seen(hanging.poses[body], UP))
        up = _up_again(hanging, body, tracks) if len(group) > 1 else None
        if up is None:
            continue
        says = f"all on one side of the {loop.name or hanging.a_set.bodies[body].name}"
        if lies_level(loop, up):
            yield Change(says, _tilts(hanging, body, facing_pose(up, (1.0, 0.0, 0.0), (1.0, 0.0, 0.0))))
        else:
            yield Change(f"{says}: it tips so far that they slide", ())


def _up_again(hanging: Hanging, body: int, tracks: Tracks) -> Vec | None:
    """Which way is up in a body that settles with what hangs on it elsewhere; None: no rest, or held fast."""
    for bridle, found in zip(hanging.order.bridles, hanging.rests.bridles, strict=True):
        if bridle.bottom == body:
            asked = bridled(hanging.a_set, hanging.order, bridle, tracks, hanging.masses, hanging.fixed)
            settled = settle_bridle(asked, found)
            return seen(settled.relative, settled.up) if settled else None
    if body not in hanging.rests.hung:
        return None
    rest = settle(hung_of(hanging.a_set, hanging.order, body, tracks, hanging.masses))
    return rest.up if rest else None


def _loaded(hanging: Hanging) -> Iterator[Change]:
    """A heavy load in each hook of what hangs singly."""
    for body, hung in hanging.rests.hung.items():
        spot = _carried_spot(hanging, body)
        if hanging.rests.single.get(body) is None or spot is None:
            continue
        for number in hanging.a_set.bodies[body].parts:
            part = hanging.a_set.parts[number]
            for name, rest in loaded(hung, part, spot[1].name if number == spot[0] else ""):
                pose = facing_pose(rest.up, rest.carried.along, (1.0, 0.0, 0.0))
                yield Change(f"with a heavy load on {part.name}.{name}", _tilts(hanging, body, pose))


def _raised(hanging: Hanging, found: HangResult, style: Style) -> Iterator[Change]:
    """The handle held at other angles."""
    for angle in HANDLES:
        other = hung_up(hanging.a_set, hanging.held, angle)
        tilts = [t for body in other.order.down for t in tilts_of(other, body, other.poses, None)]
        says = f"held with its free end {abs(round(math.degrees(angle)))} degrees {'up' if angle > 0 else 'down'}"
        says += "" if not other.laid.slid else ": what hangs on it slides off"
        yield Change(says, tuple(tilts), drop_of(other, other.poses) - found.drop)


def _rings(hanging: Hanging, found: HangResult) -> Iterator[Change]:
    """One ring more or fewer where rings hang in rings singly: all below turns a quarter and keeps its tilt."""
    kinds: dict[int, list[RingResult]] = {}
    inside = {b for bridle in hanging.order.bridles for t in bridle.ties for b in t.between}
    for body in hanging.order.down:
        piece = hanging.a_set.parts[hanging.a_set.bodies[body].parts[0]].piece
        carries = hanging.masses[body] > hanging.a_set.bodies[body].mass * (1 + 1e-9)
        if isinstance(piece, RingResult) and carries and body in hanging.order.holds and body not in inside:
            kinds.setdefault(id(piece), []).append(piece)
    for pieces in list(kinds.values())[:1]:
        piece, name = pieces[0], pieces[0].spec.name
        turns = "what is below lies a quarter turn round"
        yield Change(f"one ring more in {name}: {turns}", found.tilts, piece.inside_long)
        if len(pieces) > 1:
            yield Change(f"one ring fewer in {name}: {turns}", found.tilts, -piece.inside_long)


def _eyes(hanging: Hanging, style: Style) -> Iterator[Change]:
    """The eye by which a body hangs moved along its bar, and filed to one side.

    (Filed deeper where it bears it only hangs lower: the place it bears at stays plumb above where it balances.)
    """
    for body in hanging.rests.hung:
        spot, rest = _carried_spot(hanging, body), hanging.rests.single.get(body)
        if rest is None or spot is None or spot[1].kind not in _BORED:
            continue
        along = facing(then(hanging.a_set.parts[spot[0]].pose, spot[1].pose), (1.0, 0.0, 0.0))
        move, file, _ = _STEPS[style.first]
        name = f"{hanging.a_set.parts[spot[0]].name}'s {spot[1].name}"
        for sign, toward in _WAYS[isinstance(hanging.a_set.parts[spot[0]].piece, SheetResult)]:
            says = f"{name} {say_length(move, style)} farther {toward}"
            yield from _moved(hanging, body, times(along, sign * move), says)
        says = f"{name} filed so that it bears {say_length(file, style)} to the better side"
        filed = [c for s in (file, -file) for c in _moved(hanging, body, times(rest.carried.along, s), says)]
        yield from sorted(filed, key=_worst)[:1]


_WAYS = {
    False: ((1.0, "toward the far end"), (-1.0, "toward the datum end")),
    True: ((1.0, "round the rim"), (-1.0, "round the rim the other way")),
}
"""Which way an eye is moved, on a bar and on a sheet's rim."""


def _worst(change: Change) -> float:
    return max((tilt.angle for tilt in change.tilts), default=0.0)


def _carried_spot(hanging: Hanging, body: int) -> tuple[int, Spot] | None:
    """The part and the place by which a body hangs."""
    if body == hanging.order.root:
        return hanging.held.part, hanging.held.spot
    hold = hanging.order.holds[body]
    link = hanging.a_set.links[hold.number]
    which = 0 if hold.turned else 1
    return link.parts[which], link.spots[which]


def _moved(hanging: Hanging, body: int, way: Vec, says: str) -> Iterator[Change]:
    """One body settled again with what it hangs by elsewhere on it."""
    hung = hanging.rests.hung[body]
    rest = settle(replace(hung, carried=moved_by(hung.carried, way)))
    if rest is not None:
        pose = facing_pose(rest.up, rest.carried.along, (1.0, 0.0, 0.0))
        yield Change(says, _tilts(hanging, body, pose))


def _tilts(hanging: Hanging, body: int, pose: Pose) -> tuple[Tilt, ...]:
    poses = tuple(pose if i == body else p for i, p in enumerate(hanging.poses))
    return tilts_of(hanging, body, poses, None)


def _ties(hanging: Hanging, style: Style) -> Iterator[Change]:
    """One tie of each bridle a little longer."""
    longer = _STEPS[style.first][LONGER]
    for bridle, found in zip(hanging.order.bridles, hanging.rests.bridles, strict=True):
        if found is None or not any(tie.between for tie in bridle.ties):
            continue
        number = next(i for i, tie in enumerate(bridle.ties) if tie.between)
        asked = bridled(hanging.a_set, hanging.order, bridle, hanging.tracks, hanging.masses, hanging.fixed)
        stays = tuple(replace(s, long=s.long + longer) if i == number else s for i, s in enumerate(asked.stays))
        settled = settle_bridle(replace(asked, stays=stays), found)
        if settled is not None:
            pose = facing_pose(seen(settled.relative, settled.up), (1.0, 0.0, 0.0), (1.0, 0.0, 0.0))
            says = f"{_tie_name(hanging, bridle, number)} {say_length(longer, style)} longer inside"
            yield Change(says, _tilts(hanging, bridle.bottom, pose))


def _stuck(hanging: Hanging, found: HangResult) -> Iterator[Change]:
    """Ties that lie in one ring, held where they are put in it: as if they all came from one point of it."""
    for bridle, rest in zip(hanging.order.bridles, hanging.rests.bridles, strict=True):
        asked = bridled(hanging.a_set, hanging.order, bridle, hanging.tracks, hanging.masses, hanging.fixed)
        apex = _apex(asked.stays, rest.up) if rest is not None else None
        if rest is None or apex is None:
            continue
        settled = settle_bridle(replace(asked, stays=tuple(replace(s, top=apex) for s in asked.stays)), rest)
        if settled is not None:
            pose = facing_pose(seen(settled.relative, settled.up), (1.0, 0.0, 0.0), (1.0, 0.0, 0.0))
            ties = "chains" if all(len(tie.between) > 1 for tie in bridle.ties) else "rings"
            says = f"if the {ties} do not slide on {hanging.a_set.bodies[bridle.top].name}"
            change = Change(says, _tilts(hanging, bridle.bottom, pose))
            if not _stays(change, found.tilts, STUCK):
                yield change


def _apex(stays: tuple[Stay, ...], up: Vec) -> Track | None:
    """The lowest place of the ring in which all ties lie, as a track too small to slide on."""
    first = stays[0].top
    same = all(s.long > 0 and s.top.closed and s.top.points.shape == first.points.shape for s in stays)
    if not same or not all(np.allclose(s.top.points, first.points) for s in stays):
        return None
    valley = bearing(first, up, OVER)
    if valley is None:
        return None
    flat = standing(valley.point, up, valley.along)
    return track_of(ring_seat(first.name, flat, 0.0, _POINT, (0.0, 0.0)))


def _tie_name(hanging: Hanging, bridle: Bridle, number: int) -> str:
    """The rings of a tie from above; a row of three and more by its first and last (`links 1 to 16`)."""
    names = [hanging.a_set.bodies[b].name for b in bridle.ties[number].between]
    found: list[list[str]] = []
    for name in names:
        if found and _follows(found[-1][-1], name):
            found[-1].append(name)
        else:
            found.append([name])
    return " and ".join(part for row in found for part in _told_row(row))


def _follows(one: str, other: str) -> bool:
    """Whether a name is the next of the same kind, upward or downward."""
    (kind, _, number), (other_kind, _, other_number) = one.rpartition(" "), other.rpartition(" ")
    numbered = number.isdigit() and other_number.isdigit() and kind == other_kind
    return numbered and abs(int(number) - int(other_number)) == 1


def _told_row(row: list[str]) -> list[str]:
    return row if len(row) < _ROW else [f"{row[0]} to {row[-1].rpartition(' ')[2]}"]
