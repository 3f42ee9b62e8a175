"""Against How to Bend Sheet Metal, wikiHow, as ivorysimple.pages.dev copies it.

Kind: lesson page. Quoted by a secondary page: 24 gauge (0.024 in) through 90 degrees round 0.020 in, line at 0.33;
pi/180 taken as 0.017453.
"""

from math import pi

import pytest
from shelf import Printed, book

from bickern.parts.sheet.allowances import FoldRule
from bickern.parts.sheet.bends import fold_length


@book("fold_example_copy")
def test_figure(row: Printed) -> None:
    row.holds()


def test_twenty_four_gauge_round_twenty_thousandths() -> None:
    """The copy takes a line at a third; the standard one at 0.31, a thousandth of an inch of difference."""
    assert fold_length(0.020, 0.024, pi / 2, FoldRule.DIN_6935) == pytest.approx(0.0438559, abs=0.001)
    assert fold_length(0.020, 0.024, pi / 2, FoldRule.DIN_6935) < 0.0438559
