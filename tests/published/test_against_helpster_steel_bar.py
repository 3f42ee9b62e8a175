"""Against Helpster (helpster.de 136412): weight of a round steel bar.

Kind: lesson page. Read in the source. It takes 3.14 and then rounds 19.625 to 19.67, which goes through all that
follows.
"""

from shelf import Printed, book


@book("helpster_steel_bar")
def test_figure(row: Printed) -> None:
    row.holds()
