"""Against J. B. Stokes, Intermediate Blacksmithing, FAO Agricultural Services Bulletin 88/2, 1992.

Kind: manual. Read in the source. An S-link of 8 mm from 200 mm and a welded ring of 16 mm from 110 mm have no finished
size.
"""

from math import pi

import pytest

from bickern.iron.section import Section
from bickern.measure.units.words import INCH, Shape
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    Corner,
    Metal,
    StraightLeg,
)

BARE = BarRules(scale_worked=(0.0, 0.0, 0.0), scale_kept=(0.0, 0.0, 0.0), weld="none")


def sq(size: float) -> Section:
    return Section(Shape.SQUARE, size * INCH, size * INCH)


def reckoned(spec: BarSpec, rules: BarRules = BARE) -> BarResult:
    read = reckon_bar(spec, rules, 7850.0)
    assert read.value is not None, read.findings
    return read.value


def test_upset_corner_takes_a_quarter_thickness_more() -> None:
    """J. B. Stokes, Intermediate Blacksmithing, FAO Bulletin 88/2, 1992 (read): + 1/4 t for each upset bend.

    Transcribed: it is our rule of an upset corner.
    """

    def bent(corner: Corner) -> float:
        path = (StraightLeg(4 * INCH), BendLeg(pi / 2, 0.5 * INCH, corner=corner), StraightLeg(4 * INCH))
        return reckoned(BarSpec("b", sq(0.5), "mild", (Metal(Blank.REST),), path)).stock_bare / INCH

    assert bent(Corner.UPSET) - bent(Corner.NONE) == pytest.approx(0.125, rel=1e-9)
