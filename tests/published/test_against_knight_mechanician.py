"""Against C. Knight, The Mechanician, Spon, 2nd edition, 1879.

Kind: book. Read in the source: the page on plunger joints (chestofbooks.com copy). Lengths by the proportion of
sectional areas; the areas are printed, the flats that have them are ours.
"""

from shelf import Printed, book


@book("knight_mechanician")
def test_figure(row: Printed) -> None:
    row.holds()
