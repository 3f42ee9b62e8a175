"""Against MuJoCo 4.0, a general simulation of rigid bodies: how things hang.

Kind: reference library. Each piece is a chain of small capsules along its own line, with mass and inertia summed over
that line; it is let go some degrees away from rest on a fixed rod, swings without friction in thick air and comes to
rest. Nothing of the statics of this tool is in it: the contacts, the forces and the settling are the library's.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import mujoco  # type: ignore[import-untyped,unused-ignore]  # it ships no types
import numpy as np
import pytest
from numpy.typing import NDArray

from bickern.desk.reckon import reckon_file, reckon_text
from bickern.desk.whole import assemble
from bickern.geometry import path
from bickern.geometry.pose import put, put_all, seen, then, turning
from bickern.iron.section import area
from bickern.paper.copy import Copy
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.result import Part
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl, Cone, Pan

Array = NDArray[np.float64]
EXAMPLES = Path(__file__).parents[2] / "examples"
DENSITY = 7850.0
HALF_A_DEGREE = 0.5
STEP = 0.001  # [s]
ROD = 0.004  # half as thick as the rod is that things hang on [m]: thinner than any of the bends


@cache
def hung(job: str) -> Copy:
    """A job with its set as this tool hangs it."""
    copy = assemble.hung(reckon_file(EXAMPLES / f"{job}.yaml")).copy
    assert copy is not None
    assert copy.hang is not None
    return copy


def bar_of(job: str, name: str) -> BarResult:
    found = next(p for p in hung(job).pieces if p.spec.name == name)
    assert isinstance(found, BarResult)
    return found


@dataclass(frozen=True)
class Heavy:
    """Mass [kg], balance point [m] and inertia about it [kg m2]."""

    mass: float
    centre: Array
    inertia: Array


def of_points(places: Array, masses: Array) -> Heavy:
    mass = float(masses.sum())
    centre = masses @ places / mass
    off = places - centre
    inertia = np.eye(3) * (masses @ (off**2).sum(axis=1)) - (off.T * masses) @ off
    return Heavy(mass, centre, inertia + np.eye(3) * mass * 1e-8)  # wire thickness: none is quite without


def together(*all_of: Heavy) -> Heavy:
    mass = sum(h.mass for h in all_of)
    centre = sum((h.mass * h.centre for h in all_of), np.zeros(3)) / mass
    inertia = np.zeros((3, 3))
    for h in all_of:
        d = h.centre - centre
        inertia += h.inertia + h.mass * (np.eye(3) * (d @ d) - np.outer(d, d))
    return Heavy(mass, centre, inertia)


@dataclass(frozen=True)
class Line:
    """A bar as a line: places (n, 3) [m], half its thickness (n,) [m], the area of metal (n,) [m2], `along` it [m]."""

    places: Array
    half: Array
    area: Array
    along: Array

    def at(self, s: float) -> Array:
        return np.array([np.interp(s, self.along, row) for row in self.places.T])


def line_of(bar: BarResult, fine: float = 1e-6) -> Line:
    """The bar's own line, so close that a capsule's corner is a fraction of a degree."""
    frames = path.sample(bar.legs, fine)
    long = np.concatenate([np.linspace(r.start, r.end, 60) for r in bar.runs])
    s = np.unique(np.concatenate([frames.s, long]))
    s = s[np.concatenate([[True], np.diff(s) > 1e-7])]
    marks = np.array([v for r in bar.runs for v in (r.start, r.end - 1e-9)])
    half = np.array([v for r in bar.runs for v in (r.a.thick / 2, r.b.thick / 2)])
    side = np.array([math.sqrt(v) for r in bar.runs for v in (area(r.a), area(r.b))])
    lies = bent_round(bar, s, np.interp(s, marks, half))
    return Line(path.frames(bar.legs, list(s)).origin, lies, np.interp(s, marks, side) ** 2, s)


def bent_round(bar: BarResult, s: Array, half: Array) -> Array:
    """Half the thickness to what it bears on: in a bend a taper lies against what it was bent round, a true circle."""
    out = half.copy()
    for leg in path.leg_starts(bar.legs):
        if isinstance(leg.leg, path.Arc):
            middle = leg.s + leg.length / 2
            inside = next(b.inside_radius for b in bar.bends if b.start <= middle <= b.end)
            within = (s > leg.s) & (s < leg.s + leg.length)
            out[within] = np.maximum(out[within], leg.leg.radius - inside)
    return out


def weight_of(line: Line) -> Heavy:
    ends = line.places
    steps = np.linalg.norm(np.diff(ends, axis=0), axis=1)
    mids = (ends[1:] + ends[:-1]) / 2
    return of_points(mids, DENSITY * steps * (line.area[1:] + line.area[:-1]) / 2)


def words(values: Sequence[float] | Array) -> str:
    return " ".join(f"{v:.9g}" for v in values)


def capsules(places: Array, half: Array) -> str:
    return "".join(
        f'<geom type="capsule" size="{(h + k) / 2:.9g}" fromto="{words(a)} {words(b)}"/>'
        for a, b, h, k in zip(places[:-1], places[1:], half[:-1], half[1:], strict=True)
        if np.linalg.norm(b - a) > 1e-9
    )


def quaternion(turn: Array) -> Array:
    """Of a turn written as a matrix whose columns are where x, y, z go."""
    out = np.zeros(4)
    mujoco.mju_mat2Quat(out, turn.flatten())
    return out


def free_body(name: str, heavy: Heavy, shapes: str, turn: Array, at: Array, drag: float) -> str:
    i = heavy.inertia
    full = words([i[0, 0], i[1, 1], i[2, 2], i[0, 1], i[0, 2], i[1, 2]])
    return (
        f'<body name="{name}" pos="{words(at)}" quat="{words(quaternion(turn))}">'
        f'<joint type="free" damping="{drag:.9g}"/>'
        f'<inertial mass="{heavy.mass:.9g}" pos="{words(heavy.centre)}" fullinertia="{full}"/>{shapes}</body>'
    )


def thick_air(heavy: Heavy, pivot: Array) -> float:
    """What slows a swing about a place so that it dies out within a swing or two [N m s]."""
    arm = float(np.linalg.norm(heavy.centre - pivot))
    return math.sqrt(heavy.mass * 9.81 * arm * (float(heavy.inertia.trace()) / 2 + heavy.mass * arm**2))


def settled(world: str, seconds: float) -> tuple[mujoco.MjModel, mujoco.MjData]:
    text = (
        f'<mujoco><compiler inertiafromgeom="false" boundmass="1e-6" boundinertia="1e-12"/>'
        f'<option timestep="{STEP}" integrator="implicitfast" cone="elliptic"/>'
        f'<default><geom condim="1" solref="0.003 1" solimp="0.99 0.999 0.0001"/></default>'
        f"<worldbody>{world}</worldbody></mujoco>"
    )
    model = mujoco.MjModel.from_xml_string(text)
    data = mujoco.MjData(model)
    for _ in range(round(seconds / STEP)):
        mujoco.mj_step(model, data)
    return model, data


def on_rod(line: Line, at: float, heavy: Heavy, off: float = 12.0) -> Array:
    """The way down in a piece's own coordinates once it has settled on a rod in the bend about `at` [m] along it.

    It is let go with the rod at that place, turned `off` degrees from where its balance point is below.
    """
    here, after, before = (line.at(at + step) for step in (0.0, 1e-3, -1e-3))
    along, inward = after - before, after + before - 2 * here
    along, inward = along / np.linalg.norm(along), inward / np.linalg.norm(inward)
    across = np.cross(along, inward)
    rod = here + inward * (float(np.interp(at, line.along, line.half)) + ROD)
    down = heavy.centre - rod
    down -= across * (down @ across)
    down /= np.linalg.norm(down)
    c, s = math.cos(math.radians(off)), math.sin(math.radians(off))
    side = np.cross(across, down)
    lean, beside = c * down + s * side, c * side - s * down
    turn = np.stack([(-1, 0, 0), (0, 1, 0), (0, 0, -1)], axis=1) @ np.stack([beside, across, lean])
    body = free_body("hung", heavy, capsules(line.places, line.half), turn, -turn @ rod, thick_air(heavy, rod))
    world = f'<geom type="capsule" size="{ROD}" fromto="0 -0.1 0 0 0.1 0"/>{body}'
    return down_in(*settled(world, 4.0), "hung")


def middle(bar: BarResult, bend: int) -> float:
    """How far along the middle of a bend is [m]."""
    return (bar.bends[bend].start + bar.bends[bend].end) / 2


def down_in(model: mujoco.MjModel, data: mujoco.MjData, name: str) -> Array:
    """Which way down is in a body's own coordinates; it has come to rest."""
    assert np.abs(data.qvel).max() < 0.01
    turn: Array = data.xmat[model.body(name).id].reshape(3, 3)
    down: Array = turn.T @ np.array([0.0, 0.0, -1.0])
    return down


def ours(job: str, body: int = 0) -> Array:
    """Which way down is in a body's own coordinates, by this tool."""
    rest = hung(job).hang
    assert rest is not None
    return np.array(seen(rest.poses[body], (0.0, 0.0, -1.0)))


def apart(one: Array, other: Array) -> float:
    """The angle between two directions [degrees]."""
    return math.degrees(math.atan2(float(np.linalg.norm(np.cross(one, other))), float(one @ other)))


def test_an_s_hook_of_even_bar() -> None:
    """Both bend centres and the balance point in one line: atan(1.25 / 1.5) off plumb."""
    bar = bar_of("rail-s-hook", "hook")
    line = line_of(bar)
    even = replace(line, half=np.full_like(line.half, line.half.max()), area=np.full_like(line.area, line.area.max()))
    down = on_rod(even, middle(bar, 0), weight_of(even))
    shank = np.array(path.place(bar.legs, bar.bends[0].end + 0.01).along)
    assert apart(shank, down) == pytest.approx(math.degrees(math.atan(1.25 / 1.5)), abs=HALF_A_DEGREE)


def test_the_rail_s_hook() -> None:
    """Its bends lie in the tapers."""
    bar = bar_of("rail-s-hook", "hook")
    line = line_of(bar)
    assert apart(on_rod(line, middle(bar, 0), weight_of(line)), ours("rail-s-hook")) < HALF_A_DEGREE


def test_the_dinner_triangle() -> None:
    bar = bar_of("dinner-triangle", "triangle")
    line = line_of(bar)
    assert apart(on_rod(line, middle(bar, 1), weight_of(line)), ours("dinner-triangle")) < HALF_A_DEGREE


def test_the_ladle() -> None:
    """The bowl as a shell of rings of small masses, its rivets at their holes, where the set has put it together."""
    bar = bar_of("ladle", "handle")
    bowl, handle = part_of("ladle", "bowl"), part_of("ladle", "handle")
    line = line_of(bar)
    line = replace(line, places=put_all(handle.pose, line.places))
    rivets = np.array([put(handle.pose, path.place(bar.legs, hole.at).origin) for hole in bar.holes])
    each = np.full(len(rivets), sum(j.mass for j in hung("ladle").joints) / len(rivets))
    heavy = together(weight_of(line), bowl_weight(bowl), of_points(rivets, each))
    assert apart(on_rod(line, middle(bar, 0), heavy), ours("ladle")) < HALF_A_DEGREE


def part_of(job: str, name: str) -> Part:
    whole = hung(job).set
    assert whole is not None
    return next(p for p in whole.parts if p.name == name)


def bowl_weight(part: Part) -> Heavy:
    """A cap of a ball, its bottom at its own origin: equal steps of height have equal areas (Archimedes)."""
    assert isinstance(part.piece, SheetResult)
    spec = part.piece.spec
    assert isinstance(spec.surface, Bowl)
    rim, deep = spec.surface.rim, spec.surface.depth
    ball = ((rim / 2) ** 2 + deep**2) / (2 * deep)
    up = (np.arange(200) + 0.5) / 200 * deep
    return around(part, np.sqrt(ball**2 - (ball - up) ** 2), up, DENSITY * spec.thick * math.tau * ball * deep)


def around(part: Part, radius: Array, up: Array, mass: float, shares: Array | None = None) -> Heavy:
    """A mass spread over circles of these radii and heights, evenly or by shares."""
    turn = np.arange(60) * math.tau / 60
    rows = (np.outer(radius, np.cos(turn)), np.outer(radius, np.sin(turn)), np.outer(up, np.ones(60)))
    each = np.full(len(up), 1 / len(up)) if shares is None else shares / shares.sum()
    return of_points(put_all(part.pose, np.stack(rows, axis=-1).reshape(-1, 3)), np.repeat(each, 60) * mass / 60)


LANTERN = EXAMPLES / "porch-lantern.yaml"


@cache
def lantern(side_ring: str = "") -> Copy:
    """The lantern; with a `side_ring` the ring at the second lug is another, that wide inside."""
    text = LANTERN.read_text()
    if side_ring:
        ring = f"  wide ring:\n    ring: 3/16 rd\n    inside across: {side_ring}\n\n"
        text = text.replace("  post:\n", f"{ring}  post:\n", 1)
        text = text.replace("through: [arm.scroll, links 2, links 3]", "through: [arm.scroll, links 2, wide ring]")
        text = text.replace("{ring: links 3, through: [links 1,", "{ring: wide ring, through: [links 1,")
        text = text.replace("    make: 3\n", "    make: 2\n", 1)
    copy = assemble.hung(reckon_text(text, "porch-lantern.yaml")).copy
    assert copy is not None
    return copy


def hood_weight(copy: Copy) -> Heavy:
    """The hood as a cone of rings with its lap as a line beside, the tray as five flat sides, the posts as lines."""
    whole = copy.set
    assert whole is not None
    parts = [p for p in whole.parts if p.name in ("hood", "tray") or p.name.startswith("post")]
    return together(*(heavy for p in parts for heavy in _of_part(p)))


def _of_part(part: Part) -> list[Heavy]:
    if isinstance(part.piece, BarResult):
        line = line_of(part.piece, 1e-5)
        return [weight_of(replace(line, places=put_all(part.pose, line.places)))]
    assert isinstance(part.piece, SheetResult)
    spec = part.piece.spec
    if isinstance(spec.surface, Cone):
        low, high, tall = spec.surface.base / 2, spec.surface.top / 2, spec.surface.height
        share = (np.arange(200) + 0.5) / 200
        radius = low + (high - low) * share
        slant = math.hypot(low - high, tall)
        skin = DENSITY * spec.thick * math.pi * (low + high) * slant
        lap = np.stack([radius, 0 * radius, share * tall], axis=1)
        lapped = np.full(200, DENSITY * spec.thick * HALF_INCH * slant / 200)
        return [around(part, radius, share * tall, skin, radius), of_points(put_all(part.pose, lap), lapped)]
    assert isinstance(spec.surface, Pan)
    half, tall = spec.surface.long / 2, spec.surface.high
    flat = np.array([(x, y, 0.0) for x in _evenly(half) for y in _evenly(half)])
    walls = [(a, b, z) for a in _evenly(half) for z in (_evenly(tall / 2) + tall / 2) for b in (half, -half)]
    sides = np.array([*walls, *((b, a, z) for a, b, z in walls)])
    metal = DENSITY * spec.thick
    return [
        of_points(put_all(part.pose, flat), np.full(len(flat), metal * 4 * half**2 / len(flat))),
        of_points(put_all(part.pose, sides), np.full(len(sides), metal * 8 * half * tall / len(sides))),
    ]


def _evenly(half: float, count: int = 30) -> Array:
    return ((np.arange(count) + 0.5) / count * 2 - 1) * half


HALF_INCH = 0.0127


def looped(radius: float, half: float, count: int = 144) -> str:
    """A ring of capsules about z."""
    turn = np.arange(count + 1) * math.tau / count
    places = np.stack([radius * np.cos(turn), radius * np.sin(turn), 0 * turn], axis=1)
    return capsules(places, np.full(count + 1, half))


def hoop(radius: float, half: float, mass: float) -> Heavy:
    turn = np.arange(240) * math.tau / 240
    places = np.stack([radius * np.cos(turn), radius * np.sin(turn), 0 * turn], axis=1)
    return of_points(places, np.full(240, mass / 240))


def lug_of(copy: Copy, number: int) -> str:
    """A lug's eye as two rings of thin capsules, one at each end of the rolled strip, in the hood's coordinates."""
    whole = copy.set
    assert whole is not None
    hood = next(k for k, p in enumerate(whole.parts) if p.name == "hood")
    links = [k for k in whole.links if hood in k.parts]
    seat = links[number].seats[links[number].parts.index(hood)]
    axis = np.cross(seat.along[0], seat.up[0])
    thin, wide = float(seat.half.min()), float(seat.half.max())
    out = ""
    for side in (-1.0, 1.0):
        ring = np.vstack([seat.points, seat.points[:1]]) + side * (wide - thin) * axis
        out += capsules(ring, np.full(len(ring), thin))
    return out


def settled_hood(copy: Copy, off: float = 10.0) -> Array:
    """The way down in the hood's coordinates: the arm's scroll fixed, three rings and the hood free on it.

    All below the first ring is let go swung out to and fro by `off` degrees.
    """
    whole, rest = copy.set, copy.hang
    assert whole is not None
    assert rest is not None
    arm = whole.parts[0]
    assert isinstance(arm.piece, BarResult)
    line = line_of(arm.piece, 2e-6)
    scroll = next(span for span in arm.piece.bends if "scroll" in span.name)
    keep = line.along < scroll.end
    fixed = capsules(put_all(rest.poses[0], line.places[keep]), line.half[keep])
    swing = turning(rest.poses[2].origin, (1.0, 0.0, 0.0), math.radians(off))
    hood = hood_weight(copy)
    drag = thick_air(hood, np.array([0.0, 0.0, 0.15]))
    bodies = ""
    for number, body in enumerate(whole.bodies):
        if number == 0:
            continue
        first = whole.parts[body.parts[0]]
        pose = then(swing, rest.poses[number])
        if isinstance(first.piece, RingResult):
            wire = first.piece.spec.wire.thick / 2
            radius = first.piece.inside_across / 2 + wire
            heavy, shapes, slow = hoop(radius, wire, first.mass), looped(radius, wire), drag * 0.01
        else:
            heavy, shapes, slow = hood, lug_of(copy, 0) + lug_of(copy, 1), drag
        turn = np.stack([pose.x, pose.y, pose.z], axis=1)
        bodies += free_body(body.name, heavy, shapes, turn, np.array(pose.origin), slow)
    return down_in(*settled(fixed + bodies, 4.0), "hood")


@pytest.mark.slow
@pytest.mark.parametrize("side_ring", ["", "2 1/8"])
def test_the_lantern_s_hood(side_ring: str) -> None:
    """With rings alike it hangs plumb but for its lap; with one side ring larger it leans."""
    copy = lantern(side_ring)
    whole, rest = copy.set, copy.hang
    assert whole is not None
    assert rest is not None
    number = next(k for k, b in enumerate(whole.bodies) if b.name == "hood")
    down = np.array(seen(rest.poses[number], (0.0, 0.0, -1.0)))
    assert apart(settled_hood(copy), down) < HALF_A_DEGREE
