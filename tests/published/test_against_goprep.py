"""Against an Indian textbook of mathematics, class 10, exercises 14.4 and 8.1.

Kind: school book. Quoted by a secondary page that works the exercises without naming the book (goprep.co). Metal
buckets on a cylindrical foot: the frustum and the foot are taken apart here.
"""

from shelf import Printed, book


@book("goprep")
def test_figure(row: Printed) -> None:
    row.holds()
