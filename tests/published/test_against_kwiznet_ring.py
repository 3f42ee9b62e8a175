"""Against KwizNET, ring of radii 65 and 47.5, unit 4.20, kwiznet.com.

Kind: lesson page. Read in the source: takes 22/7 for pi.
"""

from shelf import Printed, book


@book("kwiznet_ring")
def test_figure(row: Printed) -> None:
    row.holds()
