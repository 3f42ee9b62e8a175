"""Against a mensuration of about 1800 (Google Books JZgAAAAAMAAJ, page 112).

Kind: school book. Read in the source: scanned text, title page not seen. 3.1416. The segment stands in C. Davies,
Elements of Geometry, too. Left out: examples that lost a fraction in the scan.
"""

from shelf import Printed, book


@book("old_tutor_mensuration")
def test_figure(row: Printed) -> None:
    row.holds()
