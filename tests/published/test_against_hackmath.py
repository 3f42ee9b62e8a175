"""Against word problems with solutions, hackmath.net.

Kind: lesson page. Read in the source: problems 1435, 2440, 3480, 6657, 7574, 8871, 23071 and 24391. True pi (3.1416
where it is written out). The aluminium wire of 24391 multiplies metres by square centimetres, and is kept for it.
"""

from shelf import Printed, book


@book("hackmath")
def test_figure(row: Printed) -> None:
    row.holds()
