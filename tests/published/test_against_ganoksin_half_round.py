"""Against Orchid forum, thread 25061, Drawing half-round wire from round, ganoksin.com.

Kind: question page. Read in the source. Sections of round and half round wire of 0.051 in, true pi.
"""

from shelf import Printed, book


@book("ganoksin_half_round")
def test_figure(row: Printed) -> None:
    row.holds()
