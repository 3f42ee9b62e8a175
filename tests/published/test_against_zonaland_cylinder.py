"""Against Zona Land Education (zonalandeducation.com), surface area and volume of a cylinder.

Kind: lesson page. Read in the source. 3.14.
"""

from shelf import Printed, book


@book("zonaland_cylinder")
def test_figure(row: Printed) -> None:
    row.holds()
