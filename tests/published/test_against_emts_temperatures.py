"""Against EMTS student centre, temperature scales, emtsstudentcentre.com.

Kind: course. Read in the source: worked examples. Left out: 20 C as 68 F, the first example turned round.
"""

from shelf import Printed, book


@book("emts_temperatures")
def test_figure(row: Printed) -> None:
    row.holds()
