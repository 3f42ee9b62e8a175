"""Against PMPA, Rapid Methods for Determining the Weight of a Steel Bar, Production Machining.

Kind: trade page. Read in the source (productionmachining.com). Steel at 0.2833 lb a cubic inch, rounds at 0.7854 and
hexagons at 0.866 of the square; places are mostly cut off. Two of its products are wrong. Held to one unit of the last
place, cut off or rounded.
"""

from shelf import Printed, book


@book("pmpa_bar_weights")
def test_figure(row: Printed) -> None:
    row.holds()
