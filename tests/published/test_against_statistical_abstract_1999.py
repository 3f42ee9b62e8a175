"""Against US Bureau of the Census, Statistical Abstract of the United States, 1999, appendix IV.

Kind: handbook. Read in the source, a copy of the page, Weights and Measures. Two decimals; several factors are cut off
or wrong in print, and these are kept.
"""

from shelf import Printed, book


@book("statistical_abstract_1999_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
