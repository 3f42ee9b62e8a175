"""Against Luokaiwei Steel (luokaiweisteel.com), 3/4 carbon steel plate weight per sq ft.

Kind: maker's page. Read in the source. 0.2836 lb a cubic inch.
"""

from shelf import Printed, book


@book("plate_three_quarter")
def test_figure(row: Printed) -> None:
    row.holds()
