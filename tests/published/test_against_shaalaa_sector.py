"""Against Shaalaa (shaalaa.com), question 180824: a sector of sheet made into a cone.

Kind: question page. Read in the source. Sector of 216 degrees and 21 cm; 22/7.
"""

from shelf import Printed, book


@book("shaalaa_sector")
def test_figure(row: Printed) -> None:
    row.holds()
