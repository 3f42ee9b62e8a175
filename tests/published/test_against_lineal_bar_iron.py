"""Against a pocket-book of about 1850, table of round and square bar iron, Google Books dUHGjuZyPFEC.

Kind: handbook. Read in the source: page 147, in the scan; title page not seen. Weight of a lineal foot, 3/8 to 6 inches
by eighths, iron at about 476.9 lb a cubic foot; the factor wanders by a thousandth. Five figures out of step with the
others are left out: the scan may have misread them.
"""

from shelf import Printed, book


@book("lineal_bar_iron_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
