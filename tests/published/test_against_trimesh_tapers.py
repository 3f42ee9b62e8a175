"""Against trimesh, the general library of meshes, 5.2: tapers from one section to another.

Kind: reference library. A taper is made a second time as a skin of flat triangles between rings of points, and its
volume, its balance and its sections are read off the mesh. Rays from the middle of a plane polygon find the points:
those of both ends at one angle in the unit box belong together. Reckoned another way.
"""

import math
from functools import cache

import numpy as np
import pytest
import trimesh
from numpy.typing import NDArray
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, box
from trimesh.intersections import slice_mesh_plane

from bickern.iron import blend
from bickern.iron.section import POINT, Section
from bickern.measure.units.words import Shape

Array = NDArray[np.float64]
ROUND = 480
"""Points in a ring: their chords leave out three parts in a hundred thousand of a round."""
LONG = 0.25


def regular(sides: int, first: float) -> Polygon:
    turns = first + np.arange(sides) * 2 * math.pi / sides
    return Polygon(np.column_stack((np.cos(turns), np.sin(turns))) * 0.5 / math.cos(math.pi / sides))


UNIT = {
    Shape.SQUARE: box(-0.5, -0.5, 0.5, 0.5),
    Shape.ROUND: Point(0, 0).buffer(0.5, quad_segs=4000),
    Shape.HEXAGON: regular(6, 0.0),
    Shape.OCTAGON: regular(8, math.pi / 8),
    Shape.HALF_ROUND: affinity.translate(
        affinity.scale(Point(0, 0).buffer(0.5, quad_segs=4000) & box(-1, 0, 1, 1), 1, 2, origin=(0, 0)), 0, -0.5
    ),
}
PLAIN = {Shape.FLAT: Shape.SQUARE, Shape.OVAL: Shape.ROUND, Shape.TUBE: Shape.ROUND, Shape.SQUARE_TUBE: Shape.SQUARE}


@cache
def unit_ring(shape: Shape, points: int = ROUND) -> Array:
    """Where rays at even angles leave the unit shape; no corner lies between two of them."""
    turns = np.arange(points) * 2 * math.pi / points
    edge = UNIT[shape].exterior
    places = []
    for t in turns:
        met = edge.intersection(LineString([(0, 0), (2 * math.cos(t), 2 * math.sin(t))]))
        places.append((met.x, met.y))
    return np.array(places)


def ring(bar: Section, wall: float = 0.0) -> Array:
    if bar == POINT:
        return np.zeros((ROUND, 2))
    size = bar.width - 2 * wall, bar.thick - 2 * wall
    return unit_ring(PLAIN.get(bar.shape, bar.shape)) * size * math.sqrt(bar.fullness)


def skin(first: Array, last: Array, steps: int = 20) -> trimesh.Trimesh:
    """A closed mesh through rings, straight lines from each point of the first to its fellow in the last."""
    shares = np.linspace(0, 1, steps + 1)
    rings = [np.column_stack(((1 - u) * first + u * last, np.full(ROUND, u * LONG))) for u in shares]
    points = np.vstack([*rings, [[0, 0, 0], [0, 0, LONG]]])
    i, j = np.arange(ROUND), (np.arange(ROUND) + 1) % ROUND
    faces = []
    for k in range(steps):
        a, b = k * ROUND, (k + 1) * ROUND
        faces += [np.column_stack((a + i, a + j, b + j)), np.column_stack((a + i, b + j, b + i))]
    foot, head = len(points) - 2, len(points) - 1
    faces += [np.column_stack((np.full(ROUND, foot), j, i))]
    faces += [np.column_stack((np.full(ROUND, head), steps * ROUND + i, steps * ROUND + j))]
    return trimesh.Trimesh(points, np.vstack(faces), process=False)


def sized(shape: Shape, width: float, thick: float | None = None, wall: float = 0.0, fullness: float = 1.0) -> Section:
    return Section(shape, width, width if thick is None else thick, wall, fullness)


PAIRS = [
    (sized(Shape.FLAT, 0.04, 0.01), sized(Shape.FLAT, 0.01, 0.02)),
    (sized(Shape.SQUARE, 0.02), sized(Shape.FLAT, 0.03, 0.0)),
    (sized(Shape.SQUARE, 0.02), sized(Shape.ROUND, 0.014)),
    (sized(Shape.FLAT, 0.03, 0.01), sized(Shape.OVAL, 0.01, 0.02)),
    (sized(Shape.ROUND, 0.02), POINT),
    (sized(Shape.HEXAGON, 0.02), sized(Shape.SQUARE, 0.012)),
    (sized(Shape.OCTAGON, 0.02), sized(Shape.ROUND, 0.03)),
    (sized(Shape.HALF_ROUND, 0.03, 0.015), sized(Shape.FLAT, 0.03, 0.006)),
    (sized(Shape.HALF_ROUND, 0.03, 0.015), sized(Shape.HEXAGON, 0.01)),
    (sized(Shape.SQUARE, 0.02, fullness=0.9), sized(Shape.ROUND, 0.014, fullness=0.6)),
]
IDS = [f"{a.shape} to {b.shape}" for a, b in PAIRS]


@cache
def mesh_of(number: int) -> trimesh.Trimesh:
    return skin(*(ring(bar) for bar in PAIRS[number]))


@pytest.mark.parametrize("number", range(len(PAIRS)), ids=IDS)
def test_volume_and_balance(number: int) -> None:
    mesh = mesh_of(number)
    assert mesh.volume > 0
    assert blend.blend_volume(*PAIRS[number], LONG) == pytest.approx(mesh.volume, rel=1e-4)
    assert blend.blend_centroid(*PAIRS[number], LONG) == pytest.approx(mesh.center_mass[2], rel=2e-4)


@pytest.mark.parametrize("number", range(len(PAIRS)), ids=IDS)
def test_sections_on_the_way(number: int) -> None:
    """Sections of the mesh: their area, their box, and the outline; the share stands on a ring of it."""
    first, last = PAIRS[number]
    places = np.array(mesh_of(number).vertices)
    for share in (0.25, 0.5, 0.9):
        here = places[np.abs(places[:, 2] - share * LONG) < 1e-9][:, :2]
        cut = Polygon(here)
        assert blend.blend_area(first, last, share) == pytest.approx(cut.area, rel=1e-4)
        section = blend.section_at(first, last, share)
        left, low, right, high = cut.bounds
        size = right - left, high - low
        if Shape.HEXAGON not in (first.shape, last.shape) and first.fullness == 1:  # corners stand out of its box
            assert blend.blend_box(first, last, share) == pytest.approx(size, rel=1e-4)
            assert (section.width, section.thick) == pytest.approx(size, rel=1e-4)
        line = Polygon(blend.blend_section(first, last, share, 480))
        assert line.hausdorff_distance(cut) < 5e-4 * max(size)


@pytest.mark.parametrize("number", range(len(PAIRS)), ids=IDS)
@pytest.mark.parametrize("share", [0.2, 0.7])
def test_volume_up_to_a_place_and_the_place_of_a_volume(number: int, share: float) -> None:
    first, last = PAIRS[number]
    part = slice_mesh_plane(mesh_of(number), [0, 0, -1], [0, 0, share * LONG])
    foot = np.array([0.0, 0.0, share * LONG])
    held = float(np.einsum("ij,ij->i", part.triangles[:, 0] - foot, np.cross(*(
        part.triangles[:, k] - foot for k in (1, 2)))).sum()) / 6  # fmt: skip
    assert blend.volume_to(first, last, LONG, share * LONG) == pytest.approx(held, rel=1e-4)
    assert blend.place_where(first, last, LONG, held) == pytest.approx(share * LONG, rel=3e-4)


def test_nothing_balances_in_the_middle_and_a_place_is_found_to_the_last_digit() -> None:
    assert blend.blend_centroid(POINT, POINT, LONG) == pytest.approx(LineString([(0, 0), (LONG, 0)]).centroid.x)
    bar = sized(Shape.SQUARE, 0.02)
    slab = trimesh.creation.box((0.02, 0.02, 0.1))
    assert blend.place_where(bar, bar, LONG, slab.volume) == pytest.approx(0.1, rel=1e-9)


TUBES = [
    (sized(Shape.TUBE, 0.03, wall=0.004), sized(Shape.TUBE, 0.02, wall=0.006)),
    (sized(Shape.SQUARE_TUBE, 0.03, wall=0.003), sized(Shape.SQUARE_TUBE, 0.02, wall=0.002)),
    (sized(Shape.TUBE, 0.03, wall=0.004), sized(Shape.ROUND, 0.012)),
]


@pytest.mark.parametrize(("first", "last"), TUBES, ids=["tube", "square tube", "closed"])
def test_a_tube_is_what_its_outside_encloses_less_its_hole(first: Section, last: Section) -> None:
    outer = skin(ring(first), ring(last))
    end = ring(last, last.wall) if last.wall else np.zeros((ROUND, 2))
    hole = skin(ring(first, first.wall), end)
    metal = outer.volume - hole.volume
    assert blend.blend_volume(first, last, LONG) == pytest.approx(metal, rel=1e-4)
    balance = (outer.volume * outer.center_mass[2] - hole.volume * hole.center_mass[2]) / metal
    assert blend.blend_centroid(first, last, LONG) == pytest.approx(balance, rel=2e-4)
    for share in (0.25, 0.5):
        cuts = [Polygon(m.vertices[np.abs(m.vertices[:, 2] - share * LONG) < 1e-9][:, :2]) for m in (outer, hole)]
        inside = blend.blend_hole(first, last, share, 480)
        assert inside is not None
        assert Polygon(inside).hausdorff_distance(cuts[1]) < 5e-4 * first.width
        section = blend.section_at(first, last, share)
        assert blend.area(section) == pytest.approx(cuts[0].area - cuts[1].area, rel=1e-4)
        if last.wall:
            low, high = cuts[1].bounds[0], cuts[0].bounds[0]
            assert section.wall == pytest.approx(low - high, rel=1e-3)


@pytest.mark.parametrize(
    ("first", "last"),
    [(Shape.HEXAGON, Shape.SQUARE), (Shape.OCTAGON, Shape.HEXAGON), (Shape.SQUARE, Shape.OCTAGON)],
)
def test_what_straight_sided_bars_share_half_way(first: Shape, last: Shape) -> None:
    """Half way there is a quarter of each area and half of what they share; chords' error falls with their square."""
    wide = sized(first, 0.03, 0.02), sized(last, 0.01, 0.025)

    def shared(points: int) -> float:
        a, b = (unit_ring(bar.shape, points) * (bar.width, bar.thick) for bar in wide)
        return 2 * Polygon((a + b) / 2).area - (Polygon(a).area + Polygon(b).area) / 2

    exact = (4 * shared(960) - shared(480)) / 3
    assert blend.mixed_area(*wide) == pytest.approx(exact, rel=1e-8)


def test_the_ends_are_the_ends() -> None:
    for first, last in (*PAIRS, *TUBES):
        assert blend.section_at(first, last, 0.0) == first
        assert blend.section_at(first, last, 1.0) == last


def test_of_an_edge_with_no_metal_none_is_missing() -> None:
    wide, narrow = sized(Shape.FLAT, 0.03, 0.0), sized(Shape.FLAT, 0.01, 0.0)
    here = blend.section_at(wide, narrow, 0.25)
    line = LineString([(-0.0125, 0), (0.0125, 0)])
    assert (here.width, here.thick, here.fullness) == pytest.approx((line.length, line.buffer(0).area, 1.0))


def test_a_bar_without_a_hole_has_none_on_the_way() -> None:
    assert blend.blend_hole(*PAIRS[0], 0.5) is None


def test_what_a_section_is_called_on_the_way() -> None:
    flat, square, disc = PAIRS[0][0], sized(Shape.SQUARE, 0.02), sized(Shape.ROUND, 0.02)
    assert blend.section_at(flat, square, 0.5).shape is Shape.FLAT
    assert blend.section_at(square, sized(Shape.SQUARE, 0.01), 0.5).shape is Shape.SQUARE
    assert blend.section_at(disc, sized(Shape.OVAL, 0.02, 0.01), 0.5).shape is Shape.OVAL
    assert blend.section_at(disc, sized(Shape.ROUND, 0.01), 0.5).shape is Shape.ROUND
