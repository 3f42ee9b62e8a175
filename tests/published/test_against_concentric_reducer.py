"""Against Instructions for Constructing a Concentric Reducer, hunker.com, 2011.

Kind: lesson page. Read in the source: 8 in to 4 in, whole cone 12 in high.
"""

from shelf import Printed, book


@book("concentric_reducer")
def test_figure(row: Printed) -> None:
    row.holds()
