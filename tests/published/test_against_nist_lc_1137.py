"""Against NIST, Metric Style Guide, LC 1137, 2000.

Kind: standard. Quoted by a secondary page that gives its source. The same conversion in full and rounded by rule of
reason.
"""

from shelf import Printed, book


@book("nist_lc_1137")
def test_figure(row: Printed) -> None:
    row.holds()
