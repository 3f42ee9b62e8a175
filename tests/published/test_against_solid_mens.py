"""Against Solid Mensuration, problems of a Philippine engineering review (scribd.com 480163506).

Kind: school book. Read in the source.
"""

from shelf import Printed, book


@book("solid_mens")
def test_figure(row: Printed) -> None:
    row.holds()
