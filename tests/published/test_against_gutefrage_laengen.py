"""Against three threads on stretched lengths of metalwork apprentices, gutefrage.net.

Kind: question page. Read in the source. By the middle line, 3.14 or true pi; one answer on the outside diameter is kept
as the wrong answer that it is.
"""

from shelf import Printed, book


@book("gutefrage_laengen")
def test_figure(row: Printed) -> None:
    row.holds()
