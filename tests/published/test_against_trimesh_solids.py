"""Against trimesh, the general library of meshes, 5.2: volume, centre, inertia, and files of solids.

Kind: reference library. Its own shapes are weighed by both; files written here are read by it, with names and units.
Reckoned another way.
"""

import io
import math

import numpy as np
import pytest
import trimesh
from scipy.spatial import ConvexHull

from bickern.geometry.pose import Pose, turning
from bickern.geometry.solid import combine, files, weigh
from bickern.geometry.solid.solid import Named, Solid, moved


def solid(mesh: trimesh.Trimesh) -> Solid:
    return Solid(np.array(mesh.vertices), np.array(mesh.faces, dtype=np.int32))


def turned_wall() -> trimesh.Trimesh:
    """A thick cone: its wall turned round."""
    wall = np.array([(0.1, 0.0), (0.103, 0.0), (0.023, 0.1), (0.02, 0.1), (0.1, 0.0)])
    return trimesh.creation.revolve(wall, sections=90)


SHAPES = {
    "box": trimesh.creation.box((0.3, 0.02, 0.1)),
    "round bar": trimesh.creation.cylinder(0.006, 0.5, sections=24),
    "washer": trimesh.creation.annulus(0.02, 0.05, 0.004, sections=48),
    "pill": trimesh.creation.capsule(0.3, 0.05, count=(16, 16)),
    "ball": trimesh.creation.icosphere(subdivisions=3, radius=0.04),
    "ring": trimesh.creation.torus(0.04, 0.006, major_sections=60, minor_sections=18),
    "cone wall": turned_wall(),
    "point": trimesh.creation.cone(0.05, 0.2, sections=30),
}


@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize("lies", [Pose(), turning((0.3, -0.2, 0.1), (0.6, 0.0, 0.8), 0.7)], ids=["as made", "turned"])
def test_volume_centre_and_inertia(name: str, lies: Pose) -> None:
    mesh = SHAPES[name].copy()
    mesh.fix_normals()
    ours = moved(solid(mesh), lies)
    mesh.vertices = ours.points
    assert weigh.is_closed(ours)
    assert weigh.volume(ours) == pytest.approx(mesh.volume, rel=1e-9)
    assert weigh.centre(ours) == pytest.approx(tuple(mesh.center_mass), abs=1e-9)
    scale = float(np.abs(mesh.moment_inertia).max())
    assert weigh.inertia(ours) == pytest.approx(mesh.moment_inertia, rel=1e-6, abs=1e-6 * scale)
    low, high = mesh.bounds
    assert weigh.bounds(ours) == (pytest.approx(tuple(low)), pytest.approx(tuple(high)))


def test_a_fine_ring_comes_to_the_closed_forms() -> None:
    """A torus: volume 2 pi^2 R r^2; about its axis m (R^2 + 3/4 r^2), across it m (R^2 / 2 + 5/8 r^2)."""
    R, r = 0.04, 0.006
    for sections, close in ((60, 1e-2), (240, 7e-4)):
        ring = solid(trimesh.creation.torus(R, r, major_sections=sections, minor_sections=sections))
        exact = 2 * math.pi**2 * R * r * r
        assert weigh.volume(ring) == pytest.approx(exact, rel=close)
        about = exact * np.array((R * R / 2 + 5 / 8 * r * r,) * 2 + (R * R + 3 / 4 * r * r,))
        assert np.diag(weigh.inertia(ring)) == pytest.approx(about, rel=2 * close)


def test_what_convex_bodies_share_is_the_hull_of_its_corners() -> None:
    """Two boxes turned against each other: the corners of what they share, from halfspaces by scipy."""
    from scipy.spatial import HalfspaceIntersection

    first, second = solid(trimesh.creation.box((0.3, 0.2, 0.1))), solid(trimesh.creation.box((0.2, 0.2, 0.2)))
    pose = Pose((0.05, 0.03, 0.02), *(lambda p: (p.x, p.y))(turning((0.0, 0.0, 0.0), (0.0, 0.6, 0.8), 0.5)))
    lying = moved(second, pose)
    planes = np.vstack([ConvexHull(s.points).equations for s in (first, lying)])
    corners = HalfspaceIntersection(planes, np.array((0.04, 0.02, 0.01))).intersections
    assert combine.overlap(first, lying) == pytest.approx(ConvexHull(corners).volume, rel=1e-9)


NAMED = (
    Named("hood", solid(SHAPES["cone wall"])),
    Named("top ring", solid(SHAPES["ring"])),
    Named("B", solid(SHAPES["box"])),
)


@pytest.mark.parametrize(("kind", "write", "scale"), [("glb", files.glb, 1.0), ("3mf", files.three_mf, 1000.0)])
def test_files_are_read_back_with_names_and_units(kind: str, write: object, scale: float) -> None:
    assert callable(write)
    scene = trimesh.load_scene(io.BytesIO(write(NAMED)), file_type=kind)
    assert scene.units == {"glb": "meters", "3mf": "millimeter"}[kind]
    assert set(scene.geometry) == {one.name for one in NAMED}
    for one in NAMED:
        read = scene.geometry[one.name]
        assert read.is_watertight
        assert read.volume / scale**3 == pytest.approx(weigh.volume(one.solid), rel=1e-5)
        x, y, z = np.ptp(one.solid.points, axis=0) * scale
        assert read.extents == pytest.approx((x, z, y) if kind == "glb" else (x, y, z), rel=1e-6)
    assert sorted(scene.graph.nodes_geometry) == sorted(one.name for one in NAMED)
