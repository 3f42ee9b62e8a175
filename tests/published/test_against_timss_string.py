"""Against IEA, Third International Mathematics and Science Study, 1995, advanced mathematics, item K14.

Kind: school book. Quoted by a secondary page (The Guardian, 5 June 2017). A string of even pitch round a rod; whole
centimetres.
"""

from shelf import Printed, book


@book("timss_string")
def test_figure(row: Printed) -> None:
    row.holds()
