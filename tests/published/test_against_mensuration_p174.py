"""Against an American school book of practical geometry and mensuration in questions and answers, about 1840.

Kind: school book. Read in the source: scanned text of pages 168, 174 and 180 (Google Books ud82AAAAMAAJ) and of a
later edition, page 256 (A-FEAAAAIAAJ); title pages not seen, worded as Charles Davies. Commas stand for points there.
3.1416, .7854 and .07958. Left out: examples that lost a half in the scan.
"""

from shelf import Printed, book


@book("mensuration_p174")
def test_figure(row: Printed) -> None:
    row.holds()
