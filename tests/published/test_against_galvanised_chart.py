"""Against a maker's chart of galvanised sheet, industrialequipmentspecs.com.

Kind: maker's page. Quoted by a secondary page. The thickness has two and a half ounces of zinc a square foot in it.
"""

from shelf import Printed, book


@book("galvanised_chart_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
