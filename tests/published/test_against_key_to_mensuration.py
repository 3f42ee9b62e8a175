"""Against a key to a school mensuration of the 19th century, Google Books IQUAAAAAQAAJ.

Kind: school book. Read in the source: second part, page 72, scanned text, title page not seen. The questions are in
another book, so the sizes are those that the working shows, taken as inches where it names none. 3.1416; six places,
tabled areas of polygons.
"""

from shelf import Printed, book


@book("key_to_mensuration")
def test_figure(row: Printed) -> None:
    row.holds()
