"""Against B. H. Lumley, trade test tune-up 3, bhlumley.com.

Kind: lesson page. Read in the source: feet, inches and fractions for pipe fitters and welders. A sum of 12.117 in is
read off there on the wrong sixteenth. Left out: its 6.76438 ft rounded down to 6 ft 9 1/8.
"""

from shelf import Printed, book


@book("lumley_trade_test")
def test_figure(row: Printed) -> None:
    row.holds()
