"""Against I. R. Butt, The Tinman's Manual and Builder's and Mechanic's Handbook.

Kind: handbook. Read in the source (chestofbooks.com copy). Pipes by the mean diameter and 10/3 lb for a foot of square
inch of wrought iron. In the table of circles some places are cut off and not rounded, gallons at a foot of depth are
reckoned by .052, a thousandth too much, and one circumference has a wrong digit.
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
    made = got(cone(1.0, 0.0, on_slant(1.0, 0.0, 6.0)))  # D05
    arc = made.outline.segs[0]
    assert isinstance(arc, polygon.ArcSeg)
    assert math.degrees(arc.sweep) == pytest.approx(60.0, abs=0.01)
