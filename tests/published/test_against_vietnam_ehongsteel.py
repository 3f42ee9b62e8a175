"""Against E Hong Steel (ehongsteel.com, in Vietnamese), weights of steel.

Kind: maker's page. Read in the source. 7850 kg a cubic metre, factor 0.00617 for rounds.
"""

from shelf import Printed, book


@book("vietnam_ehongsteel")
def test_figure(row: Printed) -> None:
    row.holds()
