"""Against R. A. Walsh, Electromechanical Design Handbook, 3rd edition, McGraw-Hill.

Kind: handbook. Read in the source: chapter 11. Its 28 gauge is a ten-thousandth short of the standard's.
"""

from shelf import Printed, book


@book("electromechanical_handbook")
def test_figure(row: Printed) -> None:
    row.holds()
