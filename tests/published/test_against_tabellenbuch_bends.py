"""Against a German table book of the metal trades: cut lengths of bent parts, factor k by DIN 6935.

Kind: handbook. Read in a copy of the page (scribd.com, document 401383818; the title is not on it). k is printed from
the formula and cut off. Left out: v 5.77, for which k is read off a diagram as 0.7, and L, rounded up to 32.
"""

from shelf import Printed, book

from bickern.parts.din_6935 import din_k


@book("tabellenbuch_bends", by="factor k")
def test_the_factor(row: Printed) -> None:
    row.holds(din_k(6.0, 5.0))


@book("tabellenbuch_bends", by="share of the middle")
def test_wide_bends_keep_the_length_of_their_middle(row: Printed) -> None:
    for radius in (5.1, 5.2, 8.0, 100.0):
        row.holds(din_k(radius, 1.0))
