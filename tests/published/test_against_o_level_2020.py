"""Against Singapore-Cambridge O-level, Elementary Mathematics, 2020, paper 2, question 5.

Kind: school book. Quoted by a secondary page that works it (gpa-site.pages.dev). Four figures.
"""

from shelf import Printed, book


@book("o_level_2020")
def test_figure(row: Printed) -> None:
    row.holds()
