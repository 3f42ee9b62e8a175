"""Against trimesh, the general library of meshes, 5.2: heads of rivets, filled holes, pins.

Kind: reference library. Heads as solids of revolution, from their sizes alone; the shank that fills one has the volume
of the mesh. Sizes are told in shank diameters: 1.75 by 0.6 for a snap head (Newnes), and so on; how each was read
stands beside it in the rules. Reckoned another way.
"""

import math

import numpy as np
import pytest
import trimesh
from scipy import optimize
from shapely.geometry import Point

from bickern.parts.joint import heads
from bickern.parts.joint.heads import Head
from bickern.parts.joint.holes import hole_for_rivet
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.spec import JointKind, JointResult, JointRules, JointSpec

DENSITY = 7850.0
D = 0.01
FINE = 720


def turned(profile: list[tuple[float, float]]) -> trimesh.Trimesh:
    """A solid of revolution, facets as much outside as inside of the round; made in mm, for a mesh needs room."""
    swell = math.sqrt(math.tau / FINE / math.sin(math.tau / FINE))
    solid = trimesh.creation.revolve(np.array([(1000 * r * swell, 1000 * z) for r, z in profile]), sections=FINE)
    assert solid.is_volume
    return solid.apply_scale(0.001)


def cylinder(across: float, high: float) -> trimesh.Trimesh:
    return turned([(0, 0), (across / 2, 0), (across / 2, high), (0, high)])


def cap(across: float, high: float) -> trimesh.Trimesh:
    """A slice of the ball that goes through its rim and its top: the ball's middle is found from three points."""
    ball = optimize.brentq(lambda r: math.hypot(across / 2, r - high) - r, high / 2, 10 * across)
    rim = math.atan2(across / 2, ball - high)
    arc = [(ball * math.sin(t), ball * math.cos(t) - ball + high) for t in np.linspace(rim, 0, 400)]
    return turned([(0, 0), *arc])


def cut_cone(low: float, top: float, high: float) -> trimesh.Trimesh:
    return turned([(0, 0), (low / 2, 0), (top / 2, high), (0, high)])


def test_volumes_of_caps_and_cones() -> None:
    for across, high in ((0.0175, 0.006), (0.016, 0.007), (0.02, 0.01)):
        assert heads.cap_volume(across, high) == pytest.approx(cap(across, high).volume, rel=2e-5)
    for low, top, high in ((0.016, 0.01, 0.007), (0.0175, 0.0, 0.00875), (0.015, 0.015, 0.005)):
        assert heads.frustum_volume(low, top, high) == pytest.approx(cut_cone(low, top, high).volume, rel=1e-5)


def made(head: Head) -> trimesh.Trimesh:
    """The head by its printed proportions."""
    match head:
        case Head.SNAP:
            return cap(1.75 * D, 0.6 * D)
        case Head.ROUND:
            return cap(1.6 * D, 0.7 * D)
        case Head.PAN:
            return cut_cone(1.6 * D, D, 0.7 * D)
        case Head.CONE:
            return cut_cone(1.75 * D, 0, 0.875 * D)
        case Head.FLAT:
            return cut_cone(1.5 * D, 1.5 * D, 0.5 * D)
    deep = optimize.brentq(lambda h: math.atan2(0.25 * D, h) - math.radians(30), 0, D)
    return cut_cone(1.5 * D, D, deep)


@pytest.mark.parametrize("head", [h for h in Head if h is not Head.COUNTERSUNK])
def test_what_a_head_takes(head: Head) -> None:
    solid = made(head)
    assert heads.head_volume(head, D) == pytest.approx(solid.volume, rel=3e-5)
    assert heads.head_length(head, D) == pytest.approx(solid.volume / cylinder(D, 1).volume, rel=3e-5)
    (left, _, low), (right, _, high) = solid.bounds
    assert heads.head_sizes(head, D) == pytest.approx((right - left, high - low), rel=2e-5)


def test_what_a_countersink_of_sixty_degrees_takes() -> None:
    """The shank's own metal is in the grip already; depth to the last place printed, 0.433 d."""
    sunk = made(Head.COUNTERSUNK)
    deep = float(sunk.bounds[1][2])
    assert heads.head_sizes(Head.COUNTERSUNK, D)[1] == pytest.approx(deep, rel=1e-4)
    ring = sunk.volume - cylinder(D, deep).volume
    assert heads.head_volume(Head.COUNTERSUNK, D) == pytest.approx(ring, rel=2e-4)


def test_shank_that_swells_to_fill_its_hole() -> None:
    hole, grip = 0.0108, 0.02
    tube = trimesh.creation.annulus(r_min=D / 2, r_max=hole / 2, height=grip, sections=FINE)
    assert heads.filling_length(D, hole, grip) == pytest.approx(tube.volume / cylinder(D, 1).volume, rel=3e-5)


def got(spec: JointSpec, grip: float, rules: JointRules | None = None) -> JointResult:
    read = reckon_joint(spec, rules or JointRules(), DENSITY, grip)
    assert read.value is not None, read.findings
    return read.value


def test_what_rivets_weigh_and_the_lengths_by_volume() -> None:
    """Shank past the head that is there, and that head; one a ball's slice, formed out of the shank."""
    grip = 0.02
    joint = got(JointSpec(JointKind.RIVET, ("a", "b"), size=D, number=3), grip)
    solids = cylinder(D, joint.metal).volume + cap(1.75 * D, 0.6 * D).volume
    assert joint.mass == pytest.approx(3 * solids * DENSITY, rel=3e-5)
    hole = cylinder(hole_for_rivet(D), grip).volume
    sunk = made(Head.COUNTERSUNK)
    takes = {"snap": cap(1.75 * D, 0.6 * D).volume, "countersunk": sunk.volume - cylinder(D, sunk.bounds[1][2]).volume}
    for head, metal in takes.items():
        (told,) = (length for name, length, _ in joint.also if name == f"volume of a {head} head and of the hole")
        assert told == pytest.approx((hole + metal) / cylinder(D, 1).volume, rel=5e-5)


def test_what_pins_weigh() -> None:
    """A thickness stands out at each end."""
    grip = 0.02
    joint = got(JointSpec(JointKind.PIN, ("a", "b"), size=D, number=4), grip)
    (_, _, low), (_, _, high) = trimesh.util.concatenate(
        [cylinder(D, D).apply_translation((0, 0, z)) for z in (-D, grip)]
    ).bounds
    assert joint.metal == pytest.approx(high - low, rel=1e-9)
    assert joint.mass == pytest.approx(4 * cylinder(D, high - low).volume * DENSITY, rel=1e-5)


@pytest.mark.parametrize("bars", [("a",), ("a", "b"), ("a", "b", "c")])
def test_a_weld_takes_its_share_of_the_bars_that_lie_on_each_other(bars: tuple[str, ...]) -> None:
    slabs = [trimesh.creation.box((0.02, 0.02, 0.006)) for _ in bars]
    grip = sum(float(s.extents[2]) for s in slabs)
    assert got(JointSpec(JointKind.WELD, bars), grip).metal == pytest.approx(slabs[0].extents[2], rel=1e-9)


def test_the_disc_is_round() -> None:
    """The peer is held too: what its facets leave out, they put on outside."""
    area = Point(0, 0).buffer(D / 2, quad_segs=4000).area
    assert cylinder(D, 0.03).volume == pytest.approx(area * 0.03, rel=1e-6)
