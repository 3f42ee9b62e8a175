"""Against College Preparatory Mathematics, Foundations for Algebra to Geometry Connections, homework.cpm.org.

Kind: school book. Read in the source: the publisher's own help, 12-25.
"""

from shelf import Printed, book


@book("cpm")
def test_figure(row: Printed) -> None:
    row.holds()
