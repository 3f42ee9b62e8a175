"""Against GOST 2060-73, drawn brass rods, appendix 3: area and mass.

Kind: standard. Read in the source: the scan's text (ajdocs.ru). Brass at 8500 kg a cubic metre; two of 60 masses are a
unit off. Left out: the larger squares and hexagons, not clear in the scan.
"""

from shelf import Printed, book


@book("gost_2060_brass_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
