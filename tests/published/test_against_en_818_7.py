"""Against EN 818-7, grade T chain, as a rigging maker prints it, wrigging.com.

Kind: standard. Quoted by a secondary page. The outside width is in whole millimetres, and a welded link keeps some of
its weld: 10 mm stands 1.7 % over the plain link.
"""

from shelf import Printed, book


@book("en_818_7")
def test_figure(row: Printed) -> None:
    row.holds()
