"""How far a joint swings, against exact mathematics of rings, holes, bars and walls."""

import math
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from bickern.desk.reckon import reckon_file
from bickern.desk.whole.assemble import hung, put_together
from bickern.geometry.pose import HERE, Pose, then, turning
from bickern.geometry.solid.apart import clash, gap, room
from bickern.geometry.solid.combine import without
from bickern.geometry.solid.solid import Fineness, Solid, moved
from bickern.geometry.solid.sweep import revolved, swept
from bickern.iron.section import Section
from bickern.measure.units.words import Shape
from bickern.parts.fit.result import Swing
from bickern.parts.fit.swing.hinges import hinges
from bickern.parts.fit.swing.swing import swings
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.reckon import reckon_ring
from bickern.parts.ring.spec import RingResult, RingRules, RingSpec
from bickern.parts.set.result import Body, Held, Link, Part, Pivot, Seat, SetResult, Spot, SpotKind
from bickern.parts.set.solids import piece_solid

EXAMPLES = Path(__file__).parents[2] / "examples"
TENTH = math.radians(0.1)
FACETS = math.radians(0.2)
"""What the flat facets of these meshes may add to the tenth of a degree that is asked of the search."""
JOINT = JointSpec(JointKind.RING, ("upper", "lower"))


def piece(mean: float, wire: float) -> RingResult:
    """A ring reckoned: mean and wire radius."""
    spec = RingSpec("ring", Section(Shape.ROUND, 2 * wire, 2 * wire), "S235JR", mean_across=2 * mean)
    made = reckon_ring(spec, RingRules(), 7850.0).value
    assert made is not None
    return made


ANY = piece(0.02, 0.003)


def torus(mean: float, wire: float, count: int = 64, facets: int = 24) -> Solid:
    t = np.linspace(0, 2 * math.pi, facets + 1)
    return revolved(np.stack([mean + wire * np.cos(t), wire * np.sin(t)], axis=1), count)


def rod(radius: float, half: float) -> Solid:
    """A round bar along z, its middle at the origin."""
    return revolved(np.array([[0, -half], [radius, -half], [radius, half], [0, half]]), 48)


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> Solid:
    (x, y, z), (u, v, w) = low, high
    loop = [[x, y], [u, y], [u, v], [x, v]]
    return swept(np.array([[[*p, h] for p in loop] for h in (z, w)]))


def round_seat(radius: float, half: float) -> Seat:
    t = np.arange(72) * math.radians(5)
    c, s, o = np.cos(t), np.sin(t), np.zeros(72)
    points, along, up = np.stack([radius * c, radius * s, o], 1), np.stack([-s, c, o], 1), np.stack([-c, -s, o], 1)
    return Seat("ring", points, along, up, np.full((72, 2), half), closed=True)


def straight_seat(half: float, long: float) -> Seat:
    """Along z."""
    z = np.linspace(-long, long, 21)
    rows: NDArray[np.float64] = np.zeros((21, 3))
    points = rows.copy()
    points[:, 2] = z
    along, up = rows + np.array((0, 0, 1)), rows + np.array((1, 0, 0))
    return Seat("rod", points, along, up, np.full((21, 2), half))


def hanging(seats: tuple[Seat, Seat], kinds: tuple[SpotKind, SpotKind], spot: Spot | None = None) -> SetResult:
    """Two bodies, one on the other."""
    spots = [Spot(s.name, k, HERE, seat=s) for s, k in zip(seats, kinds, strict=True)]
    if spot is not None:
        spots[0] = spot
    names = ["upper", "lower"]
    parts = tuple(Part(n, ANY, b, HERE, 1.0, (0.0, 0.0, 0.0)) for b, n in enumerate(names))
    bodies = tuple(Body(n, (b,), 1.0, (0.0, 0.0, 0.0)) for b, n in enumerate(names))
    link = Link(0, 1, (0, 1), seats, (spots[0], spots[1]), JOINT)
    return SetResult(parts, bodies, (link,), (), Held(0, 0, spots[0], "hook"))


def two_rings(upper: tuple[float, float], lower: tuple[float, float]) -> tuple[Swing, ...]:
    """Link in link, both upright: the upper bears on the lower at the origin."""
    whole = hanging((round_seat(*upper), round_seat(*lower)), (SpotKind.RING, SpotKind.RING))
    above = Pose((0.0, 0.0, upper[0]), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    below = Pose((0.0, 0.0, upper[1] + lower[1] - lower[0]), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    return swings(whole, (above, below), (torus(*upper), torus(*lower)))


def meets_far_wire(upper: float, lower: float, wires: float) -> float:
    """The angle at which the lower of two rings, turned about the near wire of the upper, meets its far wire.

    In the plane of the lower ring the upper is two dots, 2 `upper` apart (its mean diameter); the lower's middle turns
    about the first at `lower` less `wires` (both wires' radii). They meet where the far dot is `lower` + `wires` from
    the lower's middle (law of cosines).
    """
    cosine = (lower * wires - upper**2) / (upper * (lower - wires))
    return math.acos(cosine) if abs(cosine) < 1 else math.pi


RINGS = [((0.02, 0.003), (0.04, 0.003)), ((0.02, 0.004), (0.03, 0.002)), ((0.03, 0.003), (0.02, 0.003))]


@pytest.mark.parametrize(("upper", "lower"), RINGS)
def test_link_in_link(upper: tuple[float, float], lower: tuple[float, float]) -> None:
    fro, side = two_rings(upper, lower)
    wires = upper[1] + lower[1]
    for swing, exact in (
        (fro, meets_far_wire(upper[0], lower[0], wires)),
        (side, meets_far_wire(lower[0], upper[0], wires)),
    ):
        assert swing.high == pytest.approx(exact, abs=FACETS)
        assert swing.low == pytest.approx(-exact, abs=FACETS)
        assert swing.high_touches == ("upper" if exact < 3 else "")


def test_the_words_of_a_swing() -> None:
    fro, side = two_rings(*RINGS[0])
    assert [(s.what, s.way) for s in (fro, side)] == [("lower", "to and fro on upper"), ("lower", "sideways on upper")]
    assert fro.axis == pytest.approx((1.0, 0.0, 0.0), abs=1e-6)
    assert fro.point == pytest.approx((0.0, 0.0, 0.0), abs=1e-6)


def plate(thick: float, hole: float, below: float) -> Solid:
    """A wide plate square to y, its hole about the y axis, its lower edge `below` the middle of the hole."""
    sheet = box((-0.3, -thick / 2, -below), (0.3, thick / 2, 0.3))
    drill = moved(rod(hole / 2, thick), Pose((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)))
    return without(sheet, drill)


def hole_spot(hole: float, thick: float) -> Spot:
    upright = Pose((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    return Spot("hole", SpotKind.OPENING, upright, hole, thick)


def rim(hole: float) -> Seat:
    flat = round_seat(hole / 2, 0.0)
    swap = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
    return Seat("hole", flat.points @ swap, flat.along @ swap, flat.up @ swap, flat.half, closed=True)


@pytest.mark.parametrize(("mean", "wire", "thick", "below"), [(0.03, 0.003, 0.006, 0.02), (0.05, 0.005, 0.016, 0.03)])
def test_a_ring_in_a_hole_turns_round_the_hole_till_it_meets_the_plate_s_edge(
    mean: float, wire: float, thick: float, below: float
) -> None:
    hole = 2 * wire + 0.004
    whole = hanging((rim(hole), round_seat(mean, wire)), (SpotKind.OPENING, SpotKind.RING), hole_spot(hole, thick))
    pose = Pose((0.0, 0.0, -mean - 0.002), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    round_in, tipping = swings(whole, (HERE, pose), (plate(thick, hole, below), torus(mean, wire)))
    assert round_in.way == "round in the hole of upper"
    assert round_in.high == pytest.approx(_meets_edge(mean, wire, thick, below), abs=FACETS)
    assert round_in.low == pytest.approx(-round_in.high, abs=FACETS)
    assert round_in.high_touches == "upper"
    assert 0 < tipping.high < round_in.high


def _meets_edge(mean: float, wire: float, thick: float, below: float) -> float:
    """The angle at which a torus about the hole's middle touches the corner of the plate's edge.

    A place of the far wire at height y in the plate (b round the wire) hangs lower than the hole by
    (R + sqrt((R + r cos b)^2 - y^2)) cos f - r sin b sin f, lifted by half its own bow in the plate, T^2 / 16 R. The
    highest is at the plate's faces, y = T/2; it meets the edge where that is the depth of the edge.
    """
    rise = thick**2 / 16 / mean
    b = np.linspace(0, 2 * math.pi, 20001)
    out = mean + wire * np.cos(b)
    far = mean + np.sqrt(out**2 - thick**2 / 4) - rise

    def depth(f: float) -> float:
        return float((far * math.cos(f) - wire * np.sin(b) * math.sin(f)).min())

    low, high = 0.0, math.pi / 2
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (middle, high) if depth(middle) > below else (low, middle)
    return low


@pytest.mark.parametrize("hole", [0.008, 0.012])
def test_a_straight_bar_tips_in_a_hole_till_it_binds(hole: float) -> None:
    """Its sides stand r / cos f from its middle, and move by T/2 tan f over half the plate: together half the hole."""
    wire, thick = 0.003, 0.01
    whole = hanging((rim(hole), straight_seat(wire, 0.05)), (SpotKind.OPENING, SpotKind.BAR), hole_spot(hole, thick))
    pose = Pose((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    bar = rod(wire, 0.05)
    pose = Pose((0.0, 0.0, wire - hole / 2), pose.x, pose.y)
    _, tipping = swings(whole, (HERE, pose), (plate(thick, hole, 0.1), bar))
    low, high = 0.0, math.pi / 2
    while high - low > 1e-6:
        f = (low + high) / 2
        free = wire / math.cos(f) + thick / 2 * math.tan(f) < hole / 2
        low, high = (f, high) if free else (low, f)
    assert tipping.high == pytest.approx(low, abs=2 * FACETS)
    assert tipping.low == pytest.approx(-low, abs=2 * FACETS)


def pendulum(wall: float, long: float, wide: float) -> tuple[SetResult, tuple[Pose, ...], tuple[Solid, ...]]:
    """A ring on a rod along x, a bar below the ring, and a wall square to y."""
    mean, wire, pin = 0.02, 0.003, 0.004
    whole = hanging((straight_seat(pin, 0.1), round_seat(mean, wire)), (SpotKind.BAR, SpotKind.RING))
    names = [("wall", 0), ("tail", 1)]
    parts = whole.parts + tuple(Part(n, ANY, b, HERE, 1.0, (0.0, 0.0, 0.0)) for n, b in names)
    bodies = (Body("upper", (0, 2), 1.0, (0.0, 0.0, 0.0)), Body("lower", (1, 3), 1.0, (0.0, 0.0, 0.0)))
    across = Pose((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    below = Pose((0.0, 0.0, pin + wire - mean), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    # told in the poses of their bodies: the ring's y is up and its x runs toward the wall
    top = mean - pin - wire
    tail = box((-wide / 2, top - long, -wide / 2), (wide / 2, -mean, wide / 2))
    slab = moved(box((-0.5, wall, -1.0), (0.5, wall + 0.01, 1.0)), _undone(across))
    held = SetResult(parts, bodies, whole.links, (), whole.held)
    return held, (across, below), (rod(pin, 0.1), torus(mean, wire), slab, tail)


def _undone(pose: Pose) -> Pose:
    x, y, z = pose.x, pose.y, pose.z
    return Pose((0.0, 0.0, 0.0), (x[0], y[0], z[0]), (x[1], y[1], z[1]))


@pytest.mark.parametrize(("wall", "long", "wide"), [(0.1, 0.3, 0.01), (0.25, 0.3, 0.02), (0.03, 0.4, 0.006)])
def test_a_pendulum_meets_a_wall(wall: float, long: float, wide: float) -> None:
    """The lower corner on the wall's side comes to L sin f + b/2 cos f from the line it turns about."""
    fro, _ = swings(*pendulum(wall, long, wide))
    exact = math.asin(wall / math.hypot(long, wide / 2)) - math.atan(wide / 2 / long)
    ends = {round(math.degrees(a), 1): name for a, name in ((fro.low, fro.low_touches), (fro.high, fro.high_touches))}
    near = min(abs(fro.low), abs(fro.high))
    assert near == pytest.approx(exact, abs=TENTH)
    assert "wall (with tail)" in ends.values()


def test_the_room_along_the_way_is_to_what_it_passes() -> None:
    """Over the middle half of the swing the bar is nearest to the wall at half the angle."""
    wall, long, wide = 0.05, 0.3, 0.01
    fro, _ = swings(*pendulum(wall, long, wide))
    half = min(abs(fro.low), abs(fro.high)) / 2
    assert fro.near == "wall"
    assert fro.clearance == pytest.approx(wall - long * math.sin(half) - wide / 2 * math.cos(half), abs=2e-5)


@pytest.mark.parametrize(("wall", "long", "wide"), [(0.1, 0.3, 0.01), (0.25, 0.3, 0.02), (0.03, 0.4, 0.006)])
def test_a_pendulum_meets_the_wall_that_its_set_is_held_to(wall: float, long: float, wide: float) -> None:
    """The same angle, by hand as above, to a wall that is no part of the set and fills all beyond x = -`wall`."""
    whole, poses, (pin, ring, _, tail) = pendulum(wall, long, wide)
    upper, lower = whole.bodies
    parts = (*whole.parts[:2], whole.parts[3])
    bodies = (Body("upper", (0,), upper.mass, upper.centre), Body("lower", (1, 2), lower.mass, lower.centre))
    free = SetResult(parts, bodies, whole.links, (), whole.held)
    quarter = turning((0.0, 0.0, 0.0), (0.0, 0.0, 1.0), math.pi / 2)
    there = tuple(then(quarter, pose) for pose in poses)
    fro, _ = swings(free, there, (pin, ring, tail), -wall)
    exact = math.asin(wall / math.hypot(long, wide / 2)) - math.atan(wide / 2 / long)
    assert min(-fro.low, fro.high) == pytest.approx(exact, abs=TENTH)
    assert "the wall (with tail)" in (fro.low_touches, fro.high_touches)
    open_air, _ = swings(free, there, (pin, ring, tail))
    assert min(-open_air.low, open_air.high) > math.radians(120)


def test_a_ring_pull_swings_from_the_wall_below_to_the_wall_above() -> None:
    """The ring of the example: 4 in mean across (2 R), 1/2 in wire (2 r), through 5/8 in (T) of boss.

    The middle of the hole is half the eye's inch and 1/4 in of neck off the wall: d = 3/4 in. The ring's wire runs
    through that middle, half of its own bow in the boss above it; so the far wire's middle is 2 R - T^2/16 R from it,
    and its skin comes to the wall at sin f = (d - r) / (2 R - T^2/16 R). Over the top it comes to it at 180 degrees
    and f. Exact mathematics on the sizes that the job tells.
    """
    copy = put_together(reckon_file(EXAMPLES / "ring-pull.yaml")).copy
    assert copy is not None
    round_it, tipping = copy.swings
    mean, wire, thick, off = 2.0, 0.25, 0.625, 0.75
    exact = math.asin((off - wire) / (2 * mean - thick**2 / 16 / mean))
    assert sorted((-round_it.low, round_it.high)) == pytest.approx([exact, math.pi + exact], abs=FACETS)
    assert (round_it.low_touches, round_it.high_touches) == ("the wall", "the wall")
    assert tipping.high_touches == "boss"


@pytest.mark.parametrize("job", ["porch-lantern", "crane-chain"])
def test_just_before_a_swing_s_end_nothing_runs_through_and_just_after_it_does(job: str) -> None:
    """Asked of the whole solids, by cutting them: of all ends but where a thing meets what it hangs in."""
    copy = hung(reckon_file(EXAMPLES / f"{job}.yaml")).copy
    assert copy is not None
    assert copy.set is not None
    assert copy.hang is not None
    made = {p.spec.name: piece_solid(p, Fineness.PREVIEW, copy.shop.sheet) for p in copy.pieces}
    poses = copy.hang.poses
    solids = [made[part.piece.spec.name] for part in copy.set.parts]
    lies = {p.name: moved(solid, then(poses[p.body], p.pose)) for p, solid in zip(copy.set.parts, solids, strict=True)}
    asked = 0
    for hinge, swing in zip(hinges(copy.set, poses), swings(copy.set, poses, solids), strict=True):
        hang_in = {(copy.set.parts[a].name, copy.set.parts[b].name) for a in hinge.carriers for b in hinge.hung}
        for angle, touch in ((swing.low, swing.low_touches), (swing.high, swing.high_touches)):
            stays, _, turns = touch.removesuffix(")").partition(" (with ")
            if (pair := (stays, turns or swing.what)) in hang_in:
                continue
            ends = (angle + math.copysign(1, angle) * more for more in (-0.002, 0.002))
            still, moving = lies[pair[0]], lies[pair[1]]
            hits = [clash(still, moving, turning(swing.point, swing.axis, end)) for end in ends]
            assert hits == [False, True]
            asked += 1
    assert asked >= 6


def test_it_does_not_matter_where_the_set_is_drawn() -> None:
    whole, poses, solids = pendulum(0.1, 0.3, 0.01)
    elsewhere = then(turning((0.3, -0.2, 0.7), (0.36, 0.48, 0.8), 1.1), Pose((1.0, 2.0, -3.0)))
    there = swings(whole, tuple(then(elsewhere, p) for p in poses), solids)
    for one, other in zip(swings(whole, poses, solids), there, strict=True):
        assert (one.low, one.high) == pytest.approx((other.low, other.high), abs=TENTH)
        assert (one.low_touches, one.high_touches) == (other.low_touches, other.high_touches)


def test_a_larger_eye_never_swings_less() -> None:
    swung = [two_rings((upper, 0.003), (0.04, 0.003))[0] for upper in (0.012, 0.016, 0.02, 0.024)]
    reach = [min(-s.low, s.high) for s in swung]
    assert reach == sorted(reach)


def three_bodies(links: tuple[tuple[int, int], ...], held: int = 0) -> SetResult:
    count = max(max(pair) for pair in links) + 1
    seat = round_seat(0.02, 0.003)
    spot = Spot("ring", SpotKind.RING, HERE, seat=seat)
    eye = Spot("lug", SpotKind.EYE, HERE, seat=seat)
    parts = tuple(Part(f"thing {i}", ANY, i, HERE, 1.0, (0.0, 0.0, 0.0)) for i in range(count))
    bodies = tuple(Body(p.name, (i,), 1.0, (0.0, 0.0, 0.0)) for i, p in enumerate(parts))
    made = tuple(Link(a, b, (a, b), (seat, seat), (spot, eye if b == 3 else spot), JOINT) for a, b in links)
    return SetResult(parts, bodies, made, (), Held(held, held, spot, "hook"))


RING_POSES = (
    Pose((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
    Pose((-0.004, 0.0, -0.034), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    Pose((0.004, 0.0, -0.034), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    Pose((0.0, 0.0, -0.068), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
)


def test_what_hangs_on_two_rings_swings_as_one_lot_and_tips_on_its_eyes() -> None:
    found = hinges(three_bodies(((0, 1), (0, 2), (1, 3), (2, 3))), RING_POSES)
    assert [(sorted(h.movers), h.way) for h in found] == [
        ([1, 2, 3], "to and fro on thing 0"),
        ([3], "tipping on thing 1 and thing 2"),
    ]


def test_whichever_way_round_the_links_are_told_the_lot_below_moves() -> None:
    down, up = (hinges(three_bodies(order), RING_POSES[:2]) for order in (((0, 1),), ((1, 0),)))
    assert [sorted(h.movers) for h in down] == [sorted(h.movers) for h in up] == [[1], [1]]


def test_two_bars_on_a_rivet_turn_till_one_meets_a_stop() -> None:
    """A lever on a pin, a stop beside it: with half its width b the lever meets a face at y = s at asin of s less b."""
    wide, long, stop, at = 0.01, 0.2, 0.05, 0.15
    base = box((-0.01, -0.01, -0.005), (0.01, 0.01, 0.0))
    lever = box((-0.01, -wide / 2, 0.0), (long, wide / 2, 0.005))
    post = box((at - 0.002, stop, -0.005), (at + 0.5, stop + 0.01, 0.02))
    rows = (("base", 0, 0.0), ("lever", 1, 0.002), ("stop", 0, 0.0))
    parts = tuple(Part(n, ANY, b, HERE, 1.0, (0.0, 0.0, z)) for n, b, z in rows)
    bodies = (Body("base", (0, 2), 1.0, (0.0, 0.0, 0.0)), Body("lever", (1,), 1.0, (0.0, 0.0, 0.002)))
    pivot = Pivot(0, 1, (0.0, 0.0, 0.0), (0.0, 0.0, 1.0), JointSpec(JointKind.RIVET, ("base", "lever")))
    whole = SetResult(parts, bodies, (), (pivot,), None)
    (swing,) = swings(whole, (HERE, HERE), (base, lever, post))
    exact = math.asin(stop / math.hypot(long, wide / 2)) - math.atan(wide / 2 / long)
    assert swing.high == pytest.approx(exact, abs=TENTH)
    assert (swing.what, swing.way, swing.high_touches) == ("lever on base", "on its rivet", "stop")


def test_a_set_whose_lie_is_not_known_has_no_swings() -> None:
    whole, _, solids = pendulum(0.1, 0.3, 0.01)
    assert swings(whole, (), solids) == ()


@pytest.mark.parametrize("off", [0.0, 0.01, 0.03, 0.05, 0.2])
def test_the_room_between_two_rings_is_their_gap(off: float) -> None:
    one, other, pose = (
        torus(0.02, 0.003),
        torus(0.03, 0.004),
        Pose((off, 0.002, 0.01), (0.0, 0.0, 1.0), (0.6, 0.8, 0.0)),
    )
    assert room(one, other, 0.06, pose) == pytest.approx(gap(one, other, 0.06, pose).distance, abs=2e-7)
