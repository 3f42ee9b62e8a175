"""Against Formulas praticas para calculo do peso de barras de aco, livrozilla.com 417975.

Kind: course. Read in the source (Portuguese), a sheet of rules with an example each. Factors 0.00617 and 0.00785 for
millimetres; the rules for inches have one figure, and are held to what that leaves out.
"""

from shelf import Printed, book


@book("formulas_praticas")
def test_figure(row: Printed) -> None:
    row.holds()
