"""Against Ficient Design (ficientdesign.com), material stock: sheet metal gauge chart.

Kind: trade page. Read in the source: sheet steel 3 to 38, strip and tubing (Birmingham) 4/0 to 36, aluminium (American)
4/0 to 38, four places of an inch and three. Left out: the stainless column, which is the law of 1893, and numbers above
4/0, which are not known here.
"""

from shelf import Printed, book


@book("ficient_design_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
