"""Against EPSTAL, reinforcing steel, properties, epstal.pl.

Kind: maker's page. Read in the source. 7850 kg a cubic metre.
"""

from shelf import Printed, book


@book("epstal")
def test_figure(row: Printed) -> None:
    row.holds()
