"""Against F. A. Griffiths, The Artillerist's Manual and British Soldier's Compendium, 7th edition, 1856.

Kind: manual. Read in the source: text of the Project Gutenberg edition, pages 383 to 386 as shown at bitlit.ru. .5236
for a sixth of pi.
"""

from shelf import Printed, book


@book("griffiths")
def test_figure(row: Printed) -> None:
    row.holds()
