"""Against Civil Click, Cutting length of circular stirrup, civilclick.com.

Kind: lesson page. Read in the source. The circle on the bar's middle line with 3.14; the radius changes from 455 to 456
on the way, so its length is a wrong answer, kept.
"""

from shelf import Printed, book


@book("civilclick_stirrup")
def test_figure(row: Printed) -> None:
    row.holds()
