"""Against Hotwatt, technical information, areas and volumes, hotwatt.com.

Kind: maker's page. Read in the source: factors for a circle; one has its point slipped.
"""

from shelf import Printed, book


@book("hotwatt_circles")
def test_figure(row: Printed) -> None:
    row.holds()
