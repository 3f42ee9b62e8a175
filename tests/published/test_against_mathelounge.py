"""Against mathelounge.de, answers 453768, 726644, 99064, 61429 and 853683: solids, a chain link, a steel tube.

Kind: question page. Read in the source. The link is of two straights and two half circles, by the middle line; the
tube is of 7860 kg a cubic metre, cut off.
"""

from shelf import Printed, book


@book("mathelounge")
def test_figure(row: Printed) -> None:
    row.holds()
