"""Against Womack Machine Supply (womackmachine.com), hydraulic cylinder calculations.

Kind: maker's page. Read in the source. 3.14.
"""

from shelf import Printed, book


@book("womack_cylinders")
def test_figure(row: Printed) -> None:
    row.holds()
