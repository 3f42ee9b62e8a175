"""Against Civil at Work (civilatwork.blogspot.com), weight of mild steel bar, 2019.

Kind: lesson page. Read in the source. 7850 kg a cubic metre; by volume and by d2/162.
"""

from shelf import Printed, book


@book("civilatwork_bar")
def test_figure(row: Printed) -> None:
    row.holds()
