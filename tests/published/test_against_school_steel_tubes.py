"""Against question pages on a hollow iron pipe of 8 cm (byjus.com, aptitude.gateoverflow.in 4310).

Kind: question page. Read in the source; two pages are heaped here that work one question. 22/7; once metres are
reckoned as centimetres.
"""

from shelf import Printed, book


@book("school_steel_tubes")
def test_figure(row: Printed) -> None:
    row.holds()
