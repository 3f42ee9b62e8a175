"""Against Chain of Beauty, Buying the Right Rings, chainofbeauty.wordpress.com, 2012.

Kind: trade page. Read in the source, of 5 August 2012. Inside diameter of a wire ring from its outside.
"""

from shelf import Printed, book


@book("chain_of_beauty")
def test_figure(row: Printed) -> None:
    row.holds()
