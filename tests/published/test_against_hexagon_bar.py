"""Against The weight of round and hexagonal rebar, lets-rebuild.com.

Kind: lesson page. Read in the source: hexagon bars 5 to 12 mm across flats. Left out: its rounds, which go by another
density that it does not tell.
"""

from shelf import Printed, book


@book("hexagon_bar_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
