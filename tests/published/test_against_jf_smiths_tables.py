"""Against J. F., tables for operative smiths, millwrights and engineers, Google Books mzoDAAAAQAAJ.

Kind: handbook. Read in the source: pages 55 and 97 of a 19th-century workshop companion, by scanned text that drops
small fractions; title page not seen. Malleable iron at 3.32 lb for a foot of square inch; round bars by the factor 2.6;
circumferences to the nearest eighth of an inch.
"""

from shelf import Printed, book


@book("jf_smiths_tables")
def test_figure(row: Printed) -> None:
    row.holds()
