"""Against cnclathing.com, How to determine the rivet size.

Kind: maker's page. Read in the source: two sheets of 0.060 in. Grip and 1 1/2 diameters.
"""

import pytest
from chosen import shop_of
from shelf import Printed, book

from bickern.measure.units.words import INCH
from bickern.parts.joint.reckon import reckon_joint
from bickern.parts.joint.spec import JointKind, JointSpec


@book("rivet_guide")
def test_figure(row: Printed) -> None:
    row.holds()


def test_a_rivet_by_the_shops_choice() -> None:
    """Two sheets of .060 and a .188 rivet (read): .402."""
    rules = shop_of("joints: {rivet: grip + 1 1/2 d}").joint
    made = reckon_joint(JointSpec(JointKind.RIVET, (), size=0.188 * INCH), rules, 7850.0, 0.120 * INCH).value
    assert made is not None
    assert made.metal / INCH == pytest.approx(0.402, abs=0.0005)
