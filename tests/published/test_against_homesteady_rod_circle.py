"""Against C. L. Rease, How to Make a Circle of Steel Rod, homesteady.com.

Kind: lesson page. Read in the source. The circle's own diameter times 3.142; its rounding to the sixteenth is not
counted again.
"""

from shelf import Printed, book


@book("homesteady_rod_circle")
def test_figure(row: Printed) -> None:
    row.holds()
