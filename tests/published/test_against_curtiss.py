"""Against Curtiss, P-40 repair manual, page 8: AN430 rivets.

Kind: manual. Read in the source. The proportions of our flat head and its rule for the length were copied from it.
The drills of page 8 are held against our word for the fit: our hole is a limit, and all of them lie below it.
"""

import pytest
from chosen import shop_of
from shelf import Printed, book

from bickern.measure.units.words import INCH
from bickern.parts.fit.result import FitWord
from bickern.parts.fit.words import riveted
from bickern.parts.joint.heads import Head, head_length
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.spec import JointKind, JointSpec


@book("curtiss")
def test_figure(row: Printed) -> None:
    row.holds()


def test_an430_formed_head():
    """Page 8 (read): d .1562, formed head .234 x .078, shank stands out .1875.

    The head as a cylinder takes 1.125 d (exact mathematics of the printed head); the rest of the printed length swells
    into the hole.
    """
    d = 0.1562
    cylinder = 0.234**2 * 0.078 / d**2
    assert head_length(Head.FLAT, d) == pytest.approx(cylinder, rel=0.01)
    assert head_length(Head.FLAT, d) < 0.1875


@pytest.mark.parametrize(
    ("rivet", "drill"),
    [(0.0625, 0.0635), (0.0938, 0.096), (0.1250, 0.1285), (0.1562, 0.157), (0.1875, 0.189)],
)
def test_a_rivet_is_snug_in_the_drill_printed_for_it(rivet: float, drill: float) -> None:
    """Page 8 (read): drills for AN430 rivets; transcribed. One drill farther by 1/32 in is slack by our word."""
    assert riveted(rivet * INCH, drill * INCH) is FitWord.SNUG
    assert riveted(rivet * INCH, (drill + 1 / 32) * INCH) is FitWord.FREE


def test_a_rivet_by_the_shops_choice() -> None:
    """Page 8 (read): shank .1875 out of the plates, .4375 through .25; transcribed."""
    rules = shop_of("joints: {rivet: grip + 1.2 d}").joint
    made = reckon_joint(JointSpec(JointKind.RIVET, (), size=0.1562 * INCH), rules, 7850.0, 0.25 * INCH).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(0.4375, abs=0.0005)
