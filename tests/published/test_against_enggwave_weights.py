"""Against Enggwave, Weight calculation: simple examples, enggwave.com.

Kind: lesson page. Read in the source. Cast iron at 0.0072 and mild steel at 0.0078 g a cubic millimetre.
"""

from shelf import Printed, book


@book("enggwave_weights")
def test_figure(row: Printed) -> None:
    row.holds()
