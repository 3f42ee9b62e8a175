"""Against Civil Tutorials (civiltutorials), weight of mild steel plate.

Kind: lesson page. Read in the source. 7850 kg a cubic metre.
"""

from shelf import Printed, book


@book("civiltutorials_plate")
def test_figure(row: Printed) -> None:
    row.holds()
