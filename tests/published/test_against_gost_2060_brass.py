"""Against GOST 2060-73, drawn brass rods, appendix 3: area and mass.

Kind: standard. Read in the source: the scan's text (ajdocs.ru). The larger squares and hexagons are not clear there and
are left out, and so is the hexagon of 7.5 mm. Brass at 8500 kg a cubic metre.
"""

from shelf import Printed, book


@book("gost_2060_brass_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
