"""Against R. S. Aggarwal, Mathematics for Class 10, Bharati Bhawan: chapter 19, exercise 19C.

Kind: school book. Quoted by secondary pages that work the exercises: rsaggarwalsolutions.in and philoid.in. Sizes and
litres are told there, most steps are pictures.
"""

from shelf import Printed, book


@book("aggarwal")
def test_figure(row: Printed) -> None:
    row.holds()
