"""Against E. Oberg and others, Machinery's Handbook, 26th ed., Industrial Press.

Kind: handbook. Quoted by a secondary page (vedge.org, kfac): place of the neutral line of cold-rolled steel, a share
of the thickness for each pair of thickness and inside radius. DIN 6935 lies inside of them and the middle line
outside: bounds, as the length in the bend.
"""

from math import pi, radians

import pytest

from bickern.parts.sheet.allowances import FoldRule
from bickern.parts.sheet.bends import fold_length

# thickness, inside radius [in], printed place of the line that keeps its length, as a share of the thickness
MH26 = [
    (0.048, 0.03, 0.438),
    (0.06, 0.03, 0.467),
    (0.093, 0.03, 0.459),
    (0.048, 0.06, 0.433),
    (0.06, 0.06, 0.463),
    (0.06, 0.188, 0.453),
]


def by_share(radius: float, thick: float, degrees: float, share: float) -> float:
    return radians(degrees) * (radius + share * thick)


@pytest.mark.parametrize(("thick", "radius", "share"), MH26)
def test_printed_lines_lie_between_the_standard_and_the_middle(thick: float, radius: float, share: float) -> None:
    printed = by_share(radius, thick, 90, share)
    assert fold_length(radius, thick, pi / 2, FoldRule.DIN_6935) <= printed
    assert printed <= fold_length(radius, thick, pi / 2, FoldRule.MIDDLE)


@pytest.mark.parametrize(("thick", "radius", "share"), MH26)
def test_the_handbook_s_rule_lies_inside_of_its_own_table(thick: float, radius: float, share: float) -> None:
    """0.64 T stands for one line at 0.41 T; the same handbook's table of cold-rolled steel goes from 0.43 to 0.47.

    So a right angle by the rule is shorter than by any line of the table, the outermost by 0.094 T (and a little for
    the rule's 1.57). It shows how far two prints of one handbook part, and not which of them a smith's sheet follows.
    """
    short = by_share(radius, thick, 90, share) - fold_length(radius, thick, pi / 2, FoldRule.HANDBOOK_SOFT)
    assert 0.0 < short <= (0.467 * pi / 2 - 0.64) * thick + (pi / 2 - 1.57) * radius + 1e-12
