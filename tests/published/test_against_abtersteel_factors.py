"""Against Abter Steel (abtersteel.com), theoretical weight of various steels.

Kind: maker's page. Read in the source: factors for kilograms from millimetres and metres. Copper at 8.9, stainless
steel at 7.93.
"""

from shelf import Printed, book


@book("abtersteel_factors")
def test_figure(row: Printed) -> None:
    row.holds()
