"""Against CAMI Mathematics, grade 10, volume and surface area, worksheet with memo, scribd 717614448.

Kind: school book. Read in the source, in a copy.
"""

from shelf import Printed, book


@book("cami")
def test_figure(row: Printed) -> None:
    row.holds()
