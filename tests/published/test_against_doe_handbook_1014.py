"""Against US Department of Energy, Fundamentals Handbook: Mathematics, DOE-HDBK-1014/2, 1992.

Kind: handbook. Read in the source (tpub.com h1014v2, page 34, solid figures). The surfaces take 22/7, the volume of the
cone a third of pi as 1.05.
"""

from shelf import Printed, book


@book("doe_handbook_1014")
def test_figure(row: Printed) -> None:
    row.holds()
