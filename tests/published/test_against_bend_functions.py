"""Against an article of the trade press on bend functions (0.017453 R + 0.0078 T a degree).

Kind: trade page. Quoted by a secondary page, without its author: zonekxcncmachine.com, article 48040. 0.0078 T a degree
is a line at 0.4469 of the thickness.
"""

from shelf import Printed, book


@book("bend_functions")
def test_figure(row: Printed) -> None:
    row.holds()
