"""Against Government of Tamil Nadu, Mathematics, standard X, chapter 7, Mensuration.

Kind: school book. Read in the source (copy by the tnebooks project): worked examples, which take 22/7. The whole
surface in example 7.14 is misprinted.
"""

from shelf import Printed, book


@book("tamil_nadu_ten")
def test_figure(row: Printed) -> None:
    row.holds()
