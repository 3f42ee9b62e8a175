"""Folds against allowances that other people printed: they disagree, and the shop's choices must span them.

- Navy: US Navy aviation structural training, bend allowance (0.0173 R + 0.0078 T) a degree; the FAA's handbook prints
  0.01743 R. Read in the source. 0.0078 T a degree is a line at 0.447 of the thickness.
- MH26: Machinery's Handbook, 26th ed., table of the neutral line of cold-rolled steel; quoted by a secondary page.
- Workshop page: 16 ga cold-rolled steel, the line at 43 % of the thickness; read on the page.
- Copy of a worked example: 24 gauge (0.024), 90 degrees round 0.020, 0.0438559; quoted by a secondary page. It takes a
  line at a third of the thickness.
- FAA: FAA-H-8083-31 AMT Handbook, Airframe vol. 1, ch. 4, p. 230: annealed sheet bends to about one thickness inside.
  Read in the source.
"""

from math import pi, radians

import pytest

from bickern.parts.sheet.allowances import FoldRule, SheetRules
from bickern.parts.sheet.bends import fold_length
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.spec import Pan, SheetSpec, Sized

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
def test_the_handbook_s_rule_is_within_a_tenth_of_a_thickness_of_its_own_table(
    thick: float, radius: float, share: float
) -> None:
    """0.64 T stands for one line at 0.41 T; the same handbook's table goes from 0.43 to 0.47."""
    ours = fold_length(radius, thick, pi / 2, FoldRule.HANDBOOK_SOFT)
    assert ours == pytest.approx(by_share(radius, thick, 90, share), abs=0.1 * thick)


@pytest.mark.parametrize("degrees", [30, 90, 120])
@pytest.mark.parametrize(("thick", "radius"), [(0.04, 0.0625), (0.064, 0.125), (0.125, 0.125)])
def test_navy_allowance(degrees: float, thick: float, radius: float) -> None:
    """A bound: over the standard's, under the middle line's; both coefficients are cut to three figures (1 %)."""
    printed = (0.0173 * radius + 0.0078 * thick) * degrees
    assert fold_length(radius, thick, radians(degrees), FoldRule.DIN_6935) <= printed * 1.01
    assert printed <= fold_length(radius, thick, radians(degrees), FoldRule.MIDDLE) * 1.001


def test_twenty_four_gauge_round_twenty_thousandths() -> None:
    """The copy takes a line at a third; the standard one at 0.31, a thousandth of an inch of difference."""
    assert fold_length(0.020, 0.024, pi / 2, FoldRule.DIN_6935) == pytest.approx(0.0438559, abs=0.001)
    assert fold_length(0.020, 0.024, pi / 2, FoldRule.DIN_6935) < 0.0438559


def test_sixteen_gauge_at_forty_three_hundredths() -> None:
    """Round its own thickness: over the standard's 0.325 and the handbook's 0.41, under the middle."""
    printed = by_share(0.0598, 0.0598, 90, 0.43)
    soft = fold_length(0.0598, 0.0598, pi / 2, FoldRule.HANDBOOK_SOFT)
    assert soft <= printed <= fold_length(0.0598, 0.0598, pi / 2, FoldRule.MIDDLE)
    assert printed - soft < 0.05 * 0.0598


@pytest.mark.parametrize(("thicknesses", "told"), [(0.8, True), (1.2, False)])
def test_a_fold_tighter_than_the_faa_s_thickness_is_told(thicknesses: float, told: bool) -> None:
    """The book says about one thickness: a fold a fifth under it is warned of, one a fifth over it is let alone."""
    thick = 0.0015
    pan = Pan(0.2, 0.1, 0.03, inside_radius=thicknesses * thick)
    found = reckon_sheet(SheetSpec("pan", thick, "S235JR", pan, Sized.OUTSIDE), SheetRules(), 7850.0).findings
    assert ("too-tight" in {f.name for f in found}) is told
