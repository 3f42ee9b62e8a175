"""Against mein-lernen.at, Kegelstumpf (surface of a frustum).

Kind: lesson page. Read in the source. The slants are rounded to one place before the surface is taken.
"""

from shelf import Printed, book


@book("mein_lernen")
def test_figure(row: Printed) -> None:
    row.holds()
