"""Against worked questions on frusta and on a wrapped wire, byjus.com.

Kind: question page. Read in the source. 22/7 for frusta, 3.14 for the section of the wire; places are cut off. Grams
are called kilograms at the end of the wire.
"""

from shelf import Printed, book


@book("byjus")
def test_figure(row: Printed) -> None:
    row.holds()
