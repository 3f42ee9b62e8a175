"""Against a school problem on forging a cone from a round bar, symoe.com, no. 1132217.

Kind: question page. Read in the source; pi taken as 3.14.
"""

from shelf import Printed, book


@book("forged_cone")
def test_figure(row: Printed) -> None:
    row.holds()
