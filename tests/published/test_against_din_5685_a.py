"""Against DIN 5685 form A, short link chain, as a chain maker prints it.

Kind: standard. Quoted by a secondary page (haosailrigging.com, DIN 5685A): mass of 100 m. Its outside width is the
greatest allowed and its masses are rounded, so that a link of just that width comes out up to 4 % heavier.
"""

from shelf import Printed, book


@book("din_5685_a_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
