"""Against NIST, Metric Style Guide, LC 1137, 2000.

Kind: standard. Quoted by a secondary page that gives its source. The conversion in full; what it is rounded to by rule
of reason is not counted again.
"""

from shelf import Printed, book


@book("nist_lc_1137")
def test_figure(row: Printed) -> None:
    row.holds()
