"""Areas, girths and moments of every shape, held against an outline drawn without the room's own formulas."""

import math
from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray

from bickern.iron import section as sec
from bickern.iron.section import Section
from bickern.measure.units.read import read_section
from bickern.measure.units.words import SectionWords, Shape, System

MANY = 20_000
Points = NDArray[np.float64]


def regular(n: int, flats: float, turn: float) -> Points:
    """Corners of a regular n-gon, `flats` across flats."""
    angles = turn + 2 * np.pi * np.arange(n) / n
    return flats / 2 / math.cos(math.pi / n) * np.column_stack((np.cos(angles), np.sin(angles)))


def box(w: float, t: float) -> Points:
    return np.array([(w / 2, -t / 2), (w / 2, t / 2), (-w / 2, t / 2), (-w / 2, -t / 2)])


def ellipse(w: float, t: float) -> Points:
    angles = 2 * np.pi * np.arange(MANY) / MANY
    return np.column_stack((w / 2 * np.cos(angles), t / 2 * np.sin(angles)))


def half_disc(w: float) -> Points:
    angles = np.linspace(0, np.pi, MANY)
    return w / 2 * np.column_stack((np.cos(angles), np.sin(angles)))


SHAPES = [
    (Section(Shape.SQUARE, 0.0127, 0.0127), lambda: box(0.0127, 0.0127)),
    (Section(Shape.FLAT, 0.0254, 0.00635), lambda: box(0.0254, 0.00635)),
    (Section(Shape.ROUND, 0.012, 0.012), lambda: ellipse(0.012, 0.012)),
    (Section(Shape.OVAL, 0.02, 0.006), lambda: ellipse(0.02, 0.006)),
    (Section(Shape.HEXAGON, 0.0127, 0.0127), lambda: regular(6, 0.0127, 0.0)),
    (Section(Shape.OCTAGON, 0.0127, 0.0127), lambda: regular(8, 0.0127, math.pi / 8)),
    (Section(Shape.HALF_ROUND, 0.02, 0.01), lambda: half_disc(0.02)),
]
NAMED = pytest.mark.parametrize(("section", "drawn"), SHAPES, ids=[str(s.shape) for s, _ in SHAPES])
Drawn = Callable[[], Points]


def thinned(points: Points) -> Points:
    """Fewer points of a curve, its ends kept."""
    return points if len(points) < MANY else np.vstack((points[::40], points[-1:]))


def shoelace(p: Points) -> float:
    q = np.roll(p, -1, axis=0)
    return float(np.sum(p[:, 0] * q[:, 1] - q[:, 0] * p[:, 1]) / 2)


def moments(p: Points) -> tuple[float, float]:
    """About the two axes through the centroid, by Green's theorem on a polygon."""
    q = np.roll(p, -1, axis=0)
    cross = p[:, 0] * q[:, 1] - q[:, 0] * p[:, 1]
    a = np.sum(cross) / 2
    cx, cy = (float(np.sum((p[:, i] + q[:, i]) * cross) / 6 / a) for i in (0, 1))
    ix = float(np.sum((p[:, 1] ** 2 + p[:, 1] * q[:, 1] + q[:, 1] ** 2) * cross) / 12 - a * cy**2)
    iy = float(np.sum((p[:, 0] ** 2 + p[:, 0] * q[:, 0] + q[:, 0] ** 2) * cross) / 12 - a * cx**2)
    return ix, iy


@NAMED
def test_area_girth_and_moments(section: Section, drawn: Drawn) -> None:
    points = drawn()
    assert sec.area(section) == pytest.approx(shoelace(points), rel=1e-6)
    girth = float(np.sum(np.hypot(*(np.roll(points, -1, axis=0) - points).T)))
    assert sec.perimeter(section) == pytest.approx(girth, rel=1e-6)
    assert sec.inertia(section) == pytest.approx(moments(points), rel=1e-6)
    assert sec.hydraulic(section) == pytest.approx(shoelace(points) / girth, rel=1e-6)


@NAMED
def test_the_circle_round_it_is_the_least(section: Section, drawn: Drawn) -> None:
    import shapely

    polygon = shapely.Polygon(thinned(drawn()))
    assert sec.radius_of_circle_round(section) == pytest.approx(shapely.minimum_bounding_radius(polygon), rel=1e-6)


@NAMED
def test_the_outline_is_the_shape_itself(section: Section, drawn: Drawn) -> None:
    import shapely

    outline = sec.outline(section, 960)
    assert outline.shape == (960, 2)
    own = shapely.Polygon(outline)
    low, high = outline.min(axis=0), outline.max(axis=0)
    assert low[1] == pytest.approx(-section.thick / 2)
    assert high[1] == pytest.approx(section.thick / 2)
    other = drawn()
    other = other - (other.min(axis=0) + other.max(axis=0)) / 2 + (low + high) / 2
    assert own.symmetric_difference(shapely.Polygon(other)).area < 1e-4 * own.area


@pytest.mark.parametrize(("section", "drawn"), [SHAPES[i] for i in (0, 1, 4, 5)])
def test_the_outline_keeps_every_corner(section: Section, drawn: Drawn) -> None:
    corners = drawn()
    outline = sec.outline(section, 48)
    for corner in corners:
        assert np.min(np.hypot(*(outline - corner).T)) < 1e-9


def test_the_outline_has_a_multiple_of_48_points() -> None:
    square = Section(Shape.SQUARE, 1, 1)
    assert [len(sec.outline(square, n)) for n in (1, 48, 49, 100)] == [48, 48, 96, 144]


@pytest.mark.parametrize(("w", "t"), [(1.0, 1.0), (2.0, 1.0), (1.0, 0.1), (1.0, 1e-6), (1.0, 0.0)])
def test_the_girth_of_an_oval_against_elliptic_integrals(w: float, t: float) -> None:
    from scipy.special import ellipe

    exact = 2 * w * float(ellipe(1 - (t / w) ** 2))
    assert sec.perimeter(Section(Shape.OVAL, w, t)) == pytest.approx(exact, rel=1e-13)


def test_a_tube_is_its_outside_less_its_hole() -> None:
    tube = Section(Shape.TUBE, 0.025, 0.025, wall=0.003)
    assert sec.area(tube) == pytest.approx(math.pi / 4 * (0.025**2 - 0.019**2))
    assert sec.inertia(tube)[0] == pytest.approx(math.pi / 64 * (0.025**4 - 0.019**4))
    square = Section(Shape.SQUARE_TUBE, 0.025, 0.025, wall=0.003)
    assert sec.area(square) == pytest.approx(0.025**2 - 0.019**2)
    assert sec.perimeter(square) == pytest.approx(0.1)
    assert sec.radius_of_circle_round(square) == pytest.approx(0.0125 * math.sqrt(2))


def test_fullness_counts_in_the_area_alone() -> None:
    full, forged = Section(Shape.SQUARE, 0.01, 0.01), Section(Shape.SQUARE, 0.01, 0.01, fullness=0.95)
    assert sec.area(forged) == pytest.approx(0.95 * sec.area(full))
    assert sec.perimeter(forged) == sec.perimeter(full)
    assert sec.inertia(forged) == sec.inertia(full)
    assert shoelace(sec.outline(forged)) == pytest.approx(sec.area(forged))


@pytest.mark.parametrize(
    ("text", "area_in2"),
    [("3/8 sq", 9 / 64), ("1 x 1/4", 0.25), ("1/2 rd", math.pi / 16), ("1 x 1/8 tube", math.pi / 4 * (1 - 0.5625)),
     ("3/4 half round", math.pi * 0.75**2 / 8), ("1 x 0", 0), ("point", 0)],
)  # fmt: skip
def test_from_words_and_back(text: str, area_in2: float) -> None:
    words = read_section(text, System.INCH).value
    assert words is not None
    section = sec.section_from(words).value
    assert section is not None
    assert sec.area(section) == pytest.approx(area_in2 * 0.0254**2)
    assert sec.words_of(section) == words


def test_a_tube_without_a_hole_and_an_open_size_are_findings() -> None:
    full = sec.section_from(SectionWords(Shape.TUBE, (0.02, 0.01)))
    assert full.value is None
    assert full.findings[0].name == "no-hole-in-tube"
    open_size = sec.section_from(SectionWords(Shape.FLAT, (0.02, None)))
    assert open_size.value is None
    assert open_size.findings[0].name == "open-size"


def test_with_sizes_keeps_the_kind() -> None:
    square = Section(Shape.SQUARE, 0.01, 0.01, fullness=0.95)
    assert sec.with_sizes(square, 0.02) == Section(Shape.SQUARE, 0.02, 0.02, fullness=0.95)
    assert sec.with_sizes(square, 0.02, 0.01).shape is Shape.FLAT
    assert sec.with_sizes(Section(Shape.ROUND, 1, 1), 2, 1).shape is Shape.OVAL
    assert sec.with_sizes(Section(Shape.HALF_ROUND, 2, 1), 4) == Section(Shape.HALF_ROUND, 4, 2)


@NAMED
def test_what_goes_inside_stays_inside(section: Section, drawn: Drawn) -> None:
    import shapely

    points = drawn()
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    polygon = shapely.Polygon(points - middle).buffer(1e-9)
    d = sec.largest_round_inside(section)
    assert polygon.covers(shapely.Point(0, 0).buffer(d / 2 * (1 - 1e-6), 256))
    side = sec.largest_square_inside(section)
    square = shapely.box(-side / 2, -side / 2, side / 2, side / 2)
    turned = [shapely.affinity.rotate(square, a) for a in np.linspace(0, 90, 721)]
    assert any(polygon.buffer(1e-7).covers(s) for s in turned)
