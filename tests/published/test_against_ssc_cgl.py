"""Against Staff Selection Commission of India, CGL examination of 11 June 2019.

Kind: school book. Quoted by a secondary page (cracku.in), with the answer worked. 22/7.
"""

from shelf import Printed, book


@book("ssc_cgl")
def test_figure(row: Printed) -> None:
    row.holds()
