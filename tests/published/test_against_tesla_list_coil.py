"""Against Tesla mailing list (tesla-coil.com), Wire length, 11 June 2006.

Kind: question page. Read in the source. Turns on a form, without the wire's own thickness; rounded to ten feet.
"""

from shelf import Printed, book


@book("tesla_list_coil")
def test_figure(row: Printed) -> None:
    row.holds()
