"""Against L. H. Bailey, Farm and Garden Rule-Book, Macmillan.

Kind: handbook. Read in the source (chestofbooks.com copy): water in 100 feet of pipe, round measures of a gallon,
quart and pint, and gallons in tanks and wells by 5.875 times the square of the diameter and the depth in feet; cells
are held to one unit of the last place and to what 5.875 lacks of 5.8752; one has its digits slipped.
"""

from shelf import Printed, book


@book("farm_rule_book")
def test_figure(row: Printed) -> None:
    row.holds()


@book("farm_rule_book_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
