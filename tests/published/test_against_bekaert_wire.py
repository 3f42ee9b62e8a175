"""Against N.V. Bekaert S.A., Wire drawing, bekaert.com.

Kind: maker's page. Read in the source. One metre of 5.5 mm wire rod as it is drawn down; whole metres.
"""

from shelf import Printed, book


@book("bekaert_wire")
def test_figure(row: Printed) -> None:
    row.holds()
