"""Against TPS-Technitube (tps-technitube.com), Birmingham wire gauge of tubes.

Kind: maker's page. Read in the source. Millimetres to one or two places.
"""

from shelf import Printed, book


@book("technitube_bwg")
def test_figure(row: Printed) -> None:
    row.holds()
