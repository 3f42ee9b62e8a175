"""Against Pertneer (pertneer.net), Useful Information when bending Tube.

Kind: maker's page. Read in the source. The factor for one degree on the middle line.
"""

from shelf import Printed, book


@book("pertneer_tube")
def test_figure(row: Printed) -> None:
    row.holds()
