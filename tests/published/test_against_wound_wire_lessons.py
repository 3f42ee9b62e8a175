"""Against Byju's (byjus.com), a question page on wire of 6 mm wound evenly round a cylinder of 49 cm.

Kind: question page. Read in the source: the page that takes 22/7 throughout. The turns are circles of the cylinder's
own size, without the slope and the wire's thickness.
"""

from shelf import Printed, book


@book("wound_wire_lessons")
def test_figure(row: Printed) -> None:
    row.holds()
