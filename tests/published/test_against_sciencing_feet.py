"""Against Sciencing (sciencing.com), How to convert decimals to feet, inches and fractions of an inch.

Kind: lesson page. Read in the source: one example, to the sixteenth.
"""

from shelf import Printed, book


@book("sciencing_feet")
def test_figure(row: Printed) -> None:
    row.holds()
