"""Against a Hong Kong form 3 mathematics test with solution, 2019, scribd 680447075.

Kind: school book. Read in the source, in a copy.
"""

from shelf import Printed, book


@book("hong_kong_form_three")
def test_figure(row: Printed) -> None:
    row.holds()
