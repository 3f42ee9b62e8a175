"""Against Midrand Special Steels, data book, Formulae for theoretical mass calculation (cupdf.com).

Kind: maker's page. Read in the source, in a copy: factors for kilograms a metre from millimetres, of steel and
stainless steel, and of brass hexagons at 8480 kg a cubic metre. Factors are cut off or rounded and held to one unit:
those of steel rounds, flats and squares lie outside half a unit. Left out: brass rounds (0.006675, by the hexagon
0.00666) and aluminium rounds (0.002132, by its 2712 kg 0.00213), which go with no density that it tells.
"""

from shelf import Printed, book


@book("midrand_factors")
def test_figure(row: Printed) -> None:
    row.holds()
