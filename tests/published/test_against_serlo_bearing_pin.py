"""Against Serlo (de.serlo.org), exercise 11659: mass of bearing pins of S235J2.

Kind: lesson page. Read in the source. Cubic decimetres to three places.
"""

from shelf import Printed, book


@book("serlo_bearing_pin")
def test_figure(row: Printed) -> None:
    row.holds()
