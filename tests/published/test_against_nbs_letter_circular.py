"""Against US National Bureau of Standards, Letter Circular LC 24, 1922: basis of the US standard gauge.

Kind: standard. Read in the source. Wrought iron at 480 lb a cubic foot.
"""

from shelf import Printed, book


@book("nbs_letter_circular")
def test_figure(row: Printed) -> None:
    row.holds()
