"""Against Commercial Gardening, vol. 3: water tanks, chestofbooks.com copy.

Kind: handbook. Read in the source: a round tank in imperial gallons, 6.232 to the cubic foot.
"""

from shelf import Printed, book


@book("commercial_gardening")
def test_figure(row: Printed) -> None:
    row.holds()
