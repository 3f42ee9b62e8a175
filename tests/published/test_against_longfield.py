"""Against E. M. Longfield, Sheet Metal Drafting, McGraw-Hill, 1921.

Kind: book. Read in the source: pages 25, 102, 128 and chapter V. The answers to the flower holder and the funnel are
not printed or were lost in the scan: exact mathematics of the printed sizes. What galvanised sheet weighs more was
copied from it.
"""

import pytest
from shelf import Printed, book

from bickern.geometry.polygon import from_points
from bickern.measure.units.words import INCH
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import FlatOutline, SheetSpec, Surface

THIN = 1e-9


def made(surface: Surface) -> SheetResult:
    result = reckon_sheet(SheetSpec("piece", THIN, "S235JR", surface), SheetRules(), 7850.0).value
    assert result is not None
    return result


@book("longfield")
def test_figure(row: Printed) -> None:
    row.holds()


def test_longfield_end_blank() -> None:
    """LON p. 25 ex. 4G: a trapezoid of 4 1/2 and 3 1/2, 2 1/2 high, has 10 sq in."""
    corners = [(0.0, 0.0), (4.5, 0.0), (4.0, 2.5), (0.5, 2.5)]
    result = made(FlatOutline(from_points([(x * INCH, y * INCH) for x, y in corners])))
    assert result.area / INCH**2 == pytest.approx(10, abs=0.001)
