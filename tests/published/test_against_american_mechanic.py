"""Against American Mechanic, circumference and area of an ellipse, chestofbooks.com copy.

Kind: book. Read in the source: its area is right; its circumference by half the sum of the diameters is short of any
ellipse, and is kept as a wrong answer.
"""

from shelf import Printed, book


@book("american_mechanic")
def test_figure(row: Printed) -> None:
    row.holds()
