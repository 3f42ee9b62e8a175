"""Against Saky Steel (sakymetal.com), theoretical weight of stainless, carbon and alloy products.

Kind: maker's page. Read in the source. 7930 kg a cubic metre. Its square tube takes the walls along a round of the
same outside, so it is heavier than one with square corners; two of its products are wrong.
"""

from shelf import Printed, book


@book("saky_examples")
def test_figure(row: Printed) -> None:
    row.holds()
