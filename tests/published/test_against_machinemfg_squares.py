"""Against MachineMFG (machinemfg.com), weight of square bars.

Kind: maker's page. Read in the source: an example and the ends of its table. 7850 kg a cubic metre; the largest size
has lost its place in both columns.
"""

from shelf import Printed, book


@book("machinemfg_squares")
def test_figure(row: Printed) -> None:
    row.holds()
