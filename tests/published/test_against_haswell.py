"""Against C. H. Haswell, tables in The Metal Worker's Assistant: the Brown & Sharpe gauge.

Kind: handbook. Read in the source (chestofbooks.com copy). Its plates are of iron at 37.5 lb for an inch of thickness,
450 lb a cubic foot. One of nine cells is a unit off.
"""

from shelf import Printed, book


@book("haswell")
def test_figure(row: Printed) -> None:
    row.holds()


@book("haswell_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
