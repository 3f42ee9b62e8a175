"""Against US Code of Federal Regulations, title 16, section 500.19: factors between measures.

Kind: law. Read in the source (copy at law.cornell.edu). Six significant digits; the pint is a unit too high in its
last place. Left out: a cubic foot and a pound, which NIST SP 811 here has to more places.
"""

from shelf import Printed, book


@book("cfr_500_19")
def test_figure(row: Printed) -> None:
    row.holds()
