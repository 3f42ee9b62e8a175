"""Against a mensuration of about 1800 (Google Books JZgAAAAAMAAJ, page 112).

Kind: school book. Read in the source: scanned text, title page not seen. 3.1416. Examples that lost a fraction in the
scan are left out. The segment stands in C. Davies, Elements of Geometry, too.
"""

from shelf import Printed, book


@book("old_tutor_mensuration")
def test_figure(row: Printed) -> None:
    row.holds()
