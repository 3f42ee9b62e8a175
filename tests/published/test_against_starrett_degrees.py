"""Against L. S. Starrett, catalogue 33, page 591: temperature conversions.

Kind: maker's page. Read in the source: Fahrenheit to whole degrees Celsius.
"""

from shelf import Printed, book


@book("starrett_degrees_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
