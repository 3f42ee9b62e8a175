"""Against Cinstech, weight of mild steel plate, worked examples.

Kind: lesson page. Read in the source. 7850 kg a cubic metre. One answer of milligrams is called grams.
"""

from shelf import Printed, book


@book("cinstech_plate")
def test_figure(row: Printed) -> None:
    row.holds()
