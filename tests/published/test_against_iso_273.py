"""Against ISO 273, clearance holes for bolts and screws.

Kind: standard. Quoted by a secondary page (engineeringhardware.com). The rows are data here: the checks show that the
right one is found.
"""

from shelf import Printed, book


@book("iso_273")
def test_figure(row: Printed) -> None:
    row.holds()
