"""Against ceemrr.com, Geometry 2, The Net of a Frustum and Nets of Cones.

Kind: lesson page. Read in the source: two pages of one site, diameters 8 and 5 and height 4, and a cone of 10 by 12;
no unit told.
"""

import pytest
from shelf import Printed, book

from bickern.geometry.develop import Development, cone, roll_up
from bickern.measure.units.words import Read


def got(read: Read[Development]) -> Development:
    assert read.value is not None
    return read.value


@book("net_of_a_frustum")
def test_figure(row: Printed) -> None:
    row.holds()


def test_cee_apex_height() -> None:
    """The apex stands 6.6667 above the small end (read): the swing point of the flat pattern, rolled up with it."""
    made = got(cone(4.0, 2.5, 4.0))
    apex, rim = roll_up(made, [(0.0, 0.0), made.seams[0].first.end])
    assert apex[2] - rim[2] == pytest.approx(6.6667, abs=5e-5)
