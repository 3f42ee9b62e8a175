"""Against Independencia, weights of steel bars, independencia.ind.br.

Kind: maker's page. Read in the source (Portuguese). Factors 0.0062, 0.00785 and 0.0068; three figures.
"""

from shelf import Printed, book


@book("independencia_bars")
def test_figure(row: Printed) -> None:
    row.holds()
