"""Against weldingweb.com, thread 676891: straight length of a flat bar rolled into a circle.

Kind: question page. Read in the source. The question takes the outside diameter, an answer the middle; 3.14.
"""

from shelf import Printed, book


@book("weldingweb_hoop")
def test_figure(row: Printed) -> None:
    row.holds()
