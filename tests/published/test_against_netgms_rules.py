"""Against netgms.com (linepipe306), theoretical weight of steel.

Kind: maker's page. Read in the source: an example for each section, kilograms a metre. 7850 kg a cubic metre; the
octagon's factor is misprinted once.
"""

from shelf import Printed, book


@book("netgms_rules")
def test_figure(row: Printed) -> None:
    row.holds()
