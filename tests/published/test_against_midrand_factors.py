"""Against Midrand Special Steels, data book, Formulae for theoretical mass calculation (cupdf.com).

Kind: maker's page. Read in the source, in a copy: factors for kilograms a metre from millimetres, of steel and
stainless steel, and of brass hexagons at 8480 kg a cubic metre. Its brass and aluminium rounds go with no density that
it tells, and are left out.
"""

from shelf import Printed, book


@book("midrand_factors")
def test_figure(row: Printed) -> None:
    row.holds()
