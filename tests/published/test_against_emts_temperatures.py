"""Against EMTS student centre, temperature scales, emtsstudentcentre.com.

Kind: course. Read in the source: worked examples.
"""

from shelf import Printed, book


@book("emts_temperatures")
def test_figure(row: Printed) -> None:
    row.holds()
