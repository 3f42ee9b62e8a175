"""Against US Navy, aviation structural training (tpub.com, air, pages 13 to 19).

Kind: manual. Read in the source: bend allowance (0.0173 R + 0.0078 T) a degree. Its line lies at 0.447 of the
thickness; both coefficients are cut to three figures.
"""

from math import radians

import pytest

from bickern.parts.sheet.allowances import FoldRule
from bickern.parts.sheet.bends import fold_length


@pytest.mark.parametrize("degrees", [30, 90, 120])
@pytest.mark.parametrize(("thick", "radius"), [(0.04, 0.0625), (0.064, 0.125), (0.125, 0.125)])
def test_navy_allowance(degrees: float, thick: float, radius: float) -> None:
    """A bound: over the standard's, under the middle line's; both coefficients are cut to three figures (1 %).

    It tells that the Navy's line, 0.447 of the thickness, lies between two of ours; none of ours is the Navy's.
    """
    printed = (0.0173 * radius + 0.0078 * thick) * degrees
    assert fold_length(radius, thick, radians(degrees), FoldRule.DIN_6935) <= printed * 1.01
    assert printed <= fold_length(radius, thick, radians(degrees), FoldRule.MIDDLE) * 1.001
