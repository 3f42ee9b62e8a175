"""Against S. McAdams and others, Will I make it until the spring?, University of Georgia (jwilson.coe.uga.edu).

Kind: course. Read in the source: a buried oil tank of radius 18, 48 long.
"""

from shelf import Printed, book


@book("uga_oil_tank")
def test_figure(row: Printed) -> None:
    row.holds()
