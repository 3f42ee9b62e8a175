"""Against Concrete Construction, table of ASTM reinforcing bars, concreteconstruction.net.

Kind: trade page. Read in the source: 3.4 lb a foot for a square inch. Left out: its bar no. 8, the round of one inch
that others here print.
"""

from shelf import Printed, book


@book("concrete_construction")
def test_figure(row: Printed) -> None:
    row.holds()
