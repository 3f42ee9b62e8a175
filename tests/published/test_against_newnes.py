"""Against Newnes Mechanical Engineer's Pocket Book, 3rd ed., s. 4.2: snap heads.

Kind: handbook. Read in the source: millimetres to one place, .x5 rounded up. Our proportions of the head were copied
from the same section. Sizes of heads stand to a tenth, held to one unit.
"""

from shelf import Printed, book


@book("newnes")
def test_figure(row: Printed) -> None:
    row.holds()
