"""Against an English mensuration of about 1860 to 1880 that takes 11 and 7 for the circle.

Kind: school book. Read in the source: scanned text of pages 76, 84 and 102 (Google Books 4mlaAAAAcAAJ and
uDUDAAAAQAAJ); title page not seen. 22/7; a gallon of 277.274 cubic inches, or 6 1/4 to the foot. Fractions are mostly
lost in the scan, so whole answers are held to one unit. Left out: answers and sizes whose fraction would have to be
guessed.
"""

import math

import pytest
import trimesh
from shelf import Printed, book

from bickern.geometry import polygon
from bickern.geometry.develop import Development, cone, roll_up
from bickern.measure.units.words import Read

PI_RATIO = (22 / 7) / math.pi
"""How much larger areas come out with the old books' 22/7."""


def got(read: Read[Development]) -> Development:
    assert read.value is not None
    return read.value


@book("mensuration_p76")
def test_figure(row: Printed) -> None:
    row.holds()


def test_frustum_volume() -> None:
    # diameters 9 and 16, depth 14: 12345 2/3 over 7 with 22/7; its rims here come from the rolled-up pattern
    made = got(cone(8.0, 4.5, 14.0))
    rims = [p for edge in made.edges for seg in edge.segs for p in polygon.seg_points(seg, 1e-5)]
    hull = trimesh.convex.convex_hull(roll_up(made, rims))
    assert hull.volume * PI_RATIO == pytest.approx(12345.667 / 7, abs=0.02)
