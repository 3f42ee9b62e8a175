"""Against MaCoSa, University of Genoa (macosa.dima.unige.it): area of a hexagon of side 8.

Kind: lesson page. Read in the source (Italian): four figures, as the side is told.
"""

from shelf import Printed, book


@book("macosa_hexagon")
def test_figure(row: Printed) -> None:
    row.holds()
