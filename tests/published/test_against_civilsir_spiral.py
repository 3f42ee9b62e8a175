"""Against Civil Sir, How to calculate cutting length of spiral stirrups, civilsir.com.

Kind: lesson page. Read in the source. Helix on the given diameter with 3.14, weight by the square of the diameter over
162; whole kilograms.
"""

from shelf import Printed, book


@book("civilsir_spiral")
def test_figure(row: Printed) -> None:
    row.holds()
