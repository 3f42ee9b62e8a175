"""Against a book of practical geometry of the early 18th century (Google Books IeA2AAAAMAAJ).

Kind: school book. Read in the source: scanned text of the second part, page 86; title page not seen.
"""

from shelf import Printed, book


@book("surveyor_mensuration")
def test_figure(row: Printed) -> None:
    row.holds()
