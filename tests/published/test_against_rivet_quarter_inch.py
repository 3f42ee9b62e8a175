"""Against a supplier's catalogue of rivets, copied at jmodela.coffeecup.com, 2007.

Kind: trade page. Quoted by a secondary page: a rivet of 1/4 in is taken 3/8 in longer than the plates. Our rule was
copied from it; the grip is ours.
"""

from shelf import Printed, book


@book("rivet_quarter_inch")
def test_figure(row: Printed) -> None:
    row.holds()
