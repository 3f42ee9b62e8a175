"""Against NCERT, Mathematics, textbook for class VIII, chapter 9, Mensuration.

Kind: school book. Read in the source: its own worked examples. 22/7.
"""

from shelf import Printed, book


@book("ncert_eight")
def test_figure(row: Printed) -> None:
    row.holds()
