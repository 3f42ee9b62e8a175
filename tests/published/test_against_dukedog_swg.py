"""Against dukedog.co.uk, list of the Standard Wire Gauge.

Kind: lesson page. Read in the source. One slip beside a figure that is right.
"""

from shelf import Printed, book


@book("dukedog_swg")
def test_figure(row: Printed) -> None:
    row.holds()
