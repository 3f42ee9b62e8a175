"""Against Curtiss, P-40 repair manual, page 8: AN430 rivets.

Kind: manual. Read in the source. The proportions of our flat head and its rule for the length were copied from it.
"""

import pytest
from chosen import shop_of
from shelf import Printed, book

from bickern.measure.units.words import INCH
from bickern.parts.joint.heads import HEADS, Head, head_length
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.rules import rivet_length
from bickern.parts.joint.spec import JointKind, JointSpec


@book("curtiss")
def test_figure(row: Printed) -> None:
    row.holds()


def test_an430_formed_head():
    # Curtiss P-40 repair manual, page 8 (read in the source): d .1562, formed head .234 x .078, shank stands out .1875
    d, shape = 0.1562, HEADS[Head.FLAT]
    assert shape.across * d == pytest.approx(0.234, abs=0.001)
    assert shape.high * d == pytest.approx(0.078, abs=0.001)
    assert rivet_length("grip + 1.2 d", d, 0) == pytest.approx(0.1875, abs=0.0005)
    # exact mathematics: the head as a cylinder takes 1.125 d; the rest of the printed length swells into the hole
    assert 1.12 * d < head_length(Head.FLAT, d) < 0.1875


def test_a_rivet_by_the_shops_choice() -> None:
    """Page 8 (read): shank .1875 out of the plates, .4375 through .25; transcribed."""
    rules = shop_of("joints: {rivet: grip + 1.2 d}").joint
    made = reckon_joint(JointSpec(JointKind.RIVET, (), size=0.1562 * INCH), rules, 7850.0, 0.25 * INCH).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(0.4375, abs=0.0005)
