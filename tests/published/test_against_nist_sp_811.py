"""Against A. Thompson and B. N. Taylor, Guide for the Use of the International System of Units, NIST SP 811, 2008.

Kind: standard. Read in the source (appendix B, and a copy of its page 43).
"""

from shelf import Printed, book


@book("nist_sp_811")
def test_figure(row: Printed) -> None:
    row.holds()
