"""Against Slimshader (slimshader.co.uk), Hoop Chart.

Kind: maker's page. Read in the source. Tape wound at even pitch round the tube of a hoop, in whole inches; girths of
hoops to a tenth, rounded either way: held to one unit, 5 of 12 lie outside half a unit. The hoop of 49 is a slip.
"""

from shelf import Printed, book


@book("slimshader_hoops")
def test_figure(row: Printed) -> None:
    row.holds()


@book("slimshader_hoops_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
