"""Against I. R. Butt, The Tinman's Manual and Builder's and Mechanic's Handbook.

Kind: handbook. Read in the source (chestofbooks.com copy). Pipes by the mean diameter and 10/3 lb for a foot of square
inch of wrought iron. In the table of circles girths and areas are cut off or rounded and held to one unit of the last
place: 23 of 81 lie outside half a unit; one girth has a wrong digit. Gallons at a foot of depth are by .052, a
thousandth over 12/231, and are held to that and half a unit.
"""

import math

import pytest
from shelf import Printed, book

from bickern.geometry import polygon
from bickern.geometry.develop import Development, cone
from bickern.measure.units.words import Read


def got(read: Read[Development]) -> Development:
    assert read.value is not None
    return read.value


def on_slant(base: float, top: float, slant: float) -> float:
    """Height of a frustum told by its slant."""
    return math.sqrt(slant**2 - (base - top) ** 2)


@book("butt")
def test_figure(row: Printed) -> None:
    row.holds()


@book("butt_circles_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()


def test_butt_cone_of_sixty_degrees() -> None:
    """Rule for striking out (read): with a slant of 6 radii of the base the pattern is a sector of 60 degrees."""
    made = got(cone(1.0, 0.0, on_slant(1.0, 0.0, 6.0)))
    arc = made.outline.segs[0]
    assert isinstance(arc, polygon.ArcSeg)
    assert math.degrees(arc.sweep) == pytest.approx(60.0, abs=0.01)
