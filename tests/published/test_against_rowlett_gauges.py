"""Against R. Rowlett, How Many? A Dictionary of Units of Measurement, University of North Carolina.

Kind: lesson page. Read in the source: wire gauges 0 to 40. British gauges are tables by nature, so those cells check
that ours were set down rightly; American ones are reckoned here, and are mostly cut off at four places there.
"""

from shelf import Printed, book


@book("rowlett_gauges_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
