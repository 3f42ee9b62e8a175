"""Against How to calculate the mass of copper wire, and Convert metric cable size to AWG, ehow.co.uk.

Kind: lesson page. Read in the source: two pages of one site. Three slips are kept: a diameter taken for an area, one
number with the size of another, two figures changed places.
"""

from shelf import Printed, book


@book("ehow_wire")
def test_figure(row: Printed) -> None:
    row.holds()
