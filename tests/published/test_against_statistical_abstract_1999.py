"""Against US Bureau of the Census, Statistical Abstract of the United States, 1999, appendix IV.

Kind: handbook. Read in the source, a copy of the page, Weights and Measures. Two decimals, cut off or rounded: held to
one unit, 7 of 25 lie outside half a unit, two of them outside a whole one; one has its point slipped. Left out: two
factors of one figure, 0.03 for a cubic foot in cubic metres and for a millilitre in fluid ounces.
"""

from shelf import Printed, book


@book("statistical_abstract_1999_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
