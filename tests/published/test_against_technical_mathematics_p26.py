"""Against a technicians' handbook, part I, Technical Mathematics, p. 26, examples of surface areas.

Kind: handbook. Read in the source, in a copy (yumpu.com 67962081; title page not seen).
"""

from shelf import Printed, book


@book("technical_mathematics_p26")
def test_figure(row: Printed) -> None:
    row.holds()
