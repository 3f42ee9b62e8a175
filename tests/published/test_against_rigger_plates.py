"""Against Examzify (examzify.com), practice questions for riggers and crane hands.

Kind: course. Read in the source. Steel at 40 lb a square foot and inch, aluminium at 15.
"""

from shelf import Printed, book


@book("rigger_plates")
def test_figure(row: Printed) -> None:
    row.holds()
