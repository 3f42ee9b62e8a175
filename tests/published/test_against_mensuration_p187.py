"""Against a mensuration of the late 18th century with long s (Google Books DPo2AAAAMAAJ).

Kind: school book. Read in the source: scanned text of pages 185, 187 and 195; title page not seen. 3.1416 and .7854;
answers are cut off or rounded and held to one unit. The frustum on p. 185 has one area of its end too much. Left out:
a mast whose greater diameter is lost in the scan.
"""

import math

import pytest
import trimesh
from shelf import Printed, book

from bickern.geometry import polygon
from bickern.geometry.develop import Development, pyramid, roll_up
from bickern.iron.blend import blend_volume, mixed_area
from bickern.iron.section import Section
from bickern.measure.units.words import Read, Shape


def got(read: Read[Development]) -> Development:
    assert read.value is not None
    return read.value


def round_bar(diameter: float) -> Section:
    return Section(Shape.ROUND, diameter, diameter)


def octagon(side: float) -> Section:
    """An octagon of this side is 1 + sqrt 2 sides across flats."""
    flats = side * (1 + math.sqrt(2))
    return Section(Shape.OCTAGON, flats, flats)


SOLIDS = [
    # the book takes 3.1416 for pi (65.9736 is 21 of them to the last place)
    ("p. 187, ex. 3 frustum 4 and 2, 9 high", round_bar(4), round_bar(2), 9, 65.9736 / 3.1416, 5e-5),
    ("p. 187, ex. 4 frustum 16 and 9, 38 high", round_bar(16), round_bar(9), 38, 4785.1804 / 3.1416, 5e-5),
    ("p. 187, ex. 7 octagons of 10 and 6, 20 high", octagon(10), octagon(6), 20, 6309.14, 0.01),
]  # fmt: skip

SQUARE = Section(Shape.SQUARE, 1, 1)


@book("mensuration_p187")
def test_figure(row: Printed) -> None:
    row.holds()


def test_octagonal_frustum() -> None:
    # sides of 10 and 6, height 20: 6309.14 ft3; the solid's corners come from the pattern folded up
    flats = 1 + math.sqrt(2)  # across flats of an octagon over its side
    made = got(pyramid(8, 10 * flats, 6 * flats, 20.0))
    corners = [seg.start for seg in made.outline.segs if isinstance(seg, polygon.Line)]
    hull = trimesh.convex.convex_hull(roll_up(made, corners))
    assert hull.volume == pytest.approx(6309.14, abs=0.01)


@pytest.mark.parametrize(("source", "a", "b", "length", "printed", "tolerance"), SOLIDS)
def test_printed_volume(source: str, a: Section, b: Section, length: float, printed: float, tolerance: float) -> None:
    """`printed` is a pure number where the book's pi has been taken out of it, and then ours is taken out of ours."""
    pi = math.pi if Shape.ROUND in (a.shape, b.shape) else 1.0
    assert blend_volume(a, b, length) / pi == pytest.approx(printed, abs=tolerance), source


def test_the_mixed_area_of_similar_sections_is_their_mean_proportional() -> None:
    """Exact mathematics (the prismoid of the old books: two ends and the mean proportional between them)."""
    side_of_one = 2 * (1 + math.sqrt(2))
    assert mixed_area(octagon(3), octagon(2)) == pytest.approx(side_of_one * 3 * 2)
    assert mixed_area(round_bar(5), round_bar(2)) == pytest.approx(math.pi / 4 * 5 * 2)
    assert mixed_area(SQUARE, Section(Shape.SQUARE, 0.3, 0.3)) == pytest.approx(1 * 0.3)
