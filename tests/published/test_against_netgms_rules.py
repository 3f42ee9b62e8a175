"""Against netgms.com (linepipe306), theoretical weight of steel.

Kind: maker's page. Read in the source: examples, kilograms a metre. 7850 kg a cubic metre; the octagon's factor is
misprinted once. Left out: its octagon of 80 mm (41.60 by 0.0065), which another page here has more sharply.
"""

from shelf import Printed, book


@book("netgms_rules")
def test_figure(row: Printed) -> None:
    row.holds()
