"""Against L. Marecek and others, Prealgebra, 2nd ed., OpenStax, 2020, sections 7.5, 9.5 and 9.6.

Kind: school book. Read in the source. It takes 3.14 for pi; 2.2 lb to a kilogram and 0.914 m to a yard where a row
says so.
"""

from shelf import Printed, book


@book("openstax_prealgebra")
def test_figure(row: Printed) -> None:
    row.holds()
