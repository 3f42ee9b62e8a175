"""Against Institut fuer Berufliche Entwicklung, Riveting: trainees' handbook, GTZ, lesson 5.

Kind: course. Read in the source (nzdl.org): one worked rivet.
"""

from shelf import Printed, book


@book("gtz_riveting")
def test_figure(row: Printed) -> None:
    row.holds()
