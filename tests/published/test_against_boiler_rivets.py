"""Against Rivets, a page of J. Mason, jmodela.coffeecup.com, 2007.

Kind: trade page. Read in the source: from an article in a catalogue. Our rule for the hole of a small rivet was copied
from it.
"""

from shelf import Printed, book


@book("boiler_rivets")
def test_figure(row: Printed) -> None:
    row.holds()
