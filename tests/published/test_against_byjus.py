"""Against worked questions on frusta and on a wrapped wire, byjus.com.

Kind: question page. Read in the source. 22/7 for frusta, 3.14 for the section of the wire; held to one unit, cut off
or rounded. Grams are called kilograms at the end of the wire.
"""

from shelf import Printed, book


@book("byjus")
def test_figure(row: Printed) -> None:
    row.holds()
