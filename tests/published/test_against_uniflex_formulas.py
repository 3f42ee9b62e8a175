"""Against Uniflex India (uniflexindia.in), formula of calculations weight: stainless steel.

Kind: maker's page. Read in the source. Rounds at 7930, pipes at 7900 and sheets at 8000 kg a cubic metre; the factor
of the disc has lost a place.
"""

from shelf import Printed, book


@book("uniflex_formulas")
def test_figure(row: Printed) -> None:
    row.holds()
