"""Against Mathix (mathix.co), octagon area 2E8532.

Kind: question page. Read in the source.
"""

from shelf import Printed, book


@book("mathix_octagon")
def test_figure(row: Printed) -> None:
    row.holds()
