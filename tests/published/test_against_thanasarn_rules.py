"""Against Thanasarn, rules for the weight of steel, thanasarn.co.th.

Kind: maker's page. Read in the source (Thai): rules by number, two or three figures, 7850 kg a cubic metre.
"""

from shelf import Printed, book


@book("thanasarn_rules")
def test_figure(row: Printed) -> None:
    row.holds()
