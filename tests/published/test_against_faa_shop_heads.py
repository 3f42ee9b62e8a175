"""Against FAA, AC 43.13-1B, driven heads of solid rivets: 1 1/2 D across and 1/2 D high.

Kind: manual. Quoted by secondary pages, worked by two builders (vansairforce.net 122093, bearhawkforums.com 24115).
One of them takes 1 1/2 D of the wrong rivet. Our flat head has these very proportions.
"""

from shelf import Printed, book


@book("faa_shop_heads")
def test_figure(row: Printed) -> None:
    row.holds()
