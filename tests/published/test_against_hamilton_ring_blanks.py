"""Against N. L. T. Hamilton, Inside Ring Blank Measurements, nancylthamilton.com, 2021.

Kind: trade page. Read in the source. Takes 3.145 instead of pi, which leaves some metal for filing; whole millimetres.
"""

from shelf import Printed, book


@book("hamilton_ring_blanks")
def test_figure(row: Printed) -> None:
    row.holds()
