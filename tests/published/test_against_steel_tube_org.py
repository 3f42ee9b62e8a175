"""Against stainless-steel-tube.org, calculation of theoretical weight of steel.

Kind: maker's page. Read in the source: one example for each section, kilograms a metre. 7850 kg a cubic metre.
"""

from shelf import Printed, book


@book("steel_tube_org")
def test_figure(row: Printed) -> None:
    row.holds()
