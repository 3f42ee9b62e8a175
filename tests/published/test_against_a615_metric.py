"""Against M. S. Mamlouk and J. P. Zaniewski, Materials for Civil and Construction Engineers, Pearson.

Kind: school book. Read in the source: table 3.8 (bars of ASTM A615), text as shown on what-when-how.com. Its
millimetres and kilograms were turned from hundredths of a square inch and thousandths of a pound; bars from 1.128 in
on weigh as the square bars that they stand for. Kilograms are held to half a thousandth of a pound, or a thousandth of
themselves for those bars, and areas to 3.3 square millimetres: 15 of 22 lie outside half a unit.
"""

from shelf import Printed, book


@book("a615_metric_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
