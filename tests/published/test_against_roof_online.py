"""Against J. Gray, Sheet Steel: Gauge, Thickness, and Weight Chart, Roof Online (roofonline.com), 2024.

Kind: trade page. Read in the source: gauges 3 to 8. 41.82 lb a square foot and inch; our weights are of the thickness
to four places, and are held to what that rounds.
"""

from shelf import Printed, book


@book("roof_online_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
