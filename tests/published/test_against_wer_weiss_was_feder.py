"""Against wer-weiss-was.de, thread 7431886: turns of a coiled band.

Kind: question page. Read in the source. By the area of the ring; radius and turns are rounded to two places.
"""

from shelf import Printed, book


@book("wer_weiss_was_feder")
def test_figure(row: Printed) -> None:
    row.holds()
