"""Against vmsec.wordpress.com, Weigh the iron plate with holes, 2017.

Kind: question page. Read in the source. 40 lb a square foot and inch.
"""

from shelf import Printed, book


@book("vmsec_plate")
def test_figure(row: Printed) -> None:
    row.holds()
