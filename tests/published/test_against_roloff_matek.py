"""Against H. Roloff and W. Matek, Maschinenelemente, Vieweg.

Kind: handbook. Quoted by a secondary page (bs-wiki.de, Niet): hole of a hot rivet. Our rule was copied from it.
"""

from shelf import Printed, book


@book("roloff_matek")
def test_figure(row: Printed) -> None:
    row.holds()
