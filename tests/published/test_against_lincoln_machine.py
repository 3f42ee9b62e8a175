"""Against Lincoln Machine, Estimating weight of tool steel bars, lincolnmachine.com.

Kind: maker's page. Read in the source. The mental rules (four times the diameter, squared, over six; ten pounds a yard
for a square inch) are those of bar at 480 lb a cubic foot, for the round at 489; the factors below them at 3.396 lb a
foot for a square inch.
"""

from shelf import Printed, book


@book("lincoln_machine")
def test_figure(row: Printed) -> None:
    row.holds()
