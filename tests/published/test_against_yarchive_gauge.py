"""Against Yarchive (yarchive.net), letters on sheet gauges.

Kind: question page. Read in the source. Iron at 480 lb a cubic foot, by the law of 1893.
"""

from shelf import Printed, book


@book("yarchive_gauge")
def test_figure(row: Printed) -> None:
    row.holds()
