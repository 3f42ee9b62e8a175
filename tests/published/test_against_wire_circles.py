"""Against Cuemath (cuemath.com), wires of side 22 and of length 44 bent to a circle.

Kind: lesson page. Read in the source. 22/7.
"""

from shelf import Printed, book


@book("wire_circles")
def test_figure(row: Printed) -> None:
    row.holds()
