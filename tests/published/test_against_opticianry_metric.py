"""Against National Federation of Opticianry Schools (nfos.org), module 1, metric conversions.

Kind: course. Read in the source: worked examples, exact.
"""

from shelf import Printed, book


@book("opticianry_metric")
def test_figure(row: Printed) -> None:
    row.holds()
