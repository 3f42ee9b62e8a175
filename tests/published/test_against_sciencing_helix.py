"""Against Sciencing (sciencing.com), How to Calculate Helical Length.

Kind: lesson page. Read in the source. A helix by its radius and rise, with 3.145 for pi.
"""

from shelf import Printed, book


@book("sciencing_helix")
def test_figure(row: Printed) -> None:
    row.holds()
