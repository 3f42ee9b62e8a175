"""Against How to calculate the weight of mild steel pipe and bars, lceted.com, 2020 and 2022.

Kind: lesson page. Read in the source. Bars by the square of the diameter over 162.5. The wall of the pipe is reckoned
along the outside, as a flat plate, so that it comes out 6 % too heavy: wrong answers, kept.
"""

from shelf import Printed, book


@book("lceted_mild_steel")
def test_figure(row: Printed) -> None:
    row.holds()
