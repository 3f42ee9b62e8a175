"""Against a metal trades toolbox for vocational schools, calculations 2.6, circumference (metal.brightcookie.com).

Kind: course. Read in the source. 3.14159; it leaves the thickness of the bar out, so that its 600 is the middle of the
bar here.
"""

from shelf import Printed, book


@book("metal_toolbox_ring")
def test_figure(row: Printed) -> None:
    row.holds()
