"""Against The Firing Line forum (thefiringline.com), post 5477337: weight of a steel plate.

Kind: question page. Read in the source. 0.278 lb a cubic inch.
"""

from shelf import Printed, book


@book("firing_line_plate")
def test_figure(row: Printed) -> None:
    row.holds()
