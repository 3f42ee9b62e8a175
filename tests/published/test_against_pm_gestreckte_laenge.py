"""Against Mathematik PM, 12 Gestreckte Laenge, worksheet of a trade school (scribd.com 509386756).

Kind: course. Read in the source: example 1, by the middle line. Example 2 is a sketch that the text does not give.
"""

from shelf import Printed, book


@book("pm_gestreckte_laenge")
def test_figure(row: Printed) -> None:
    row.holds()
