"""Against DIN 763:1990, long-link chain, table 1.

Kind: standard. Read in the source: the English text in a copy read by machine (mydoc123.com, p-661511). Masses are
approximate and go by steps of 0.05; the width is the least inside one. The sizes 6 and 7 mm stand 4 % over a plain
link of that width, for a reason that is not printed.
"""

from shelf import Printed, book


@book("din_763_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
